import { expect, test } from 'vitest';
import { StaywrightError } from '../../src/errors.ts';
import { moveSeams } from '../../src/alterations/move-seams.ts';
import type { MoveSeams } from '../../src/alterations/move-seams-options.ts';
import { chordAt } from '../../src/pattern/chord.ts';
import { outlineOf } from '../../src/pattern/outline.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { caught } from '../support/caught.ts';
import { at, letOut, takeIn } from '../support/moves.ts';
import {
  corneredPanel,
  curvedPanel,
  halfPattern,
  panelOf,
  patternOf,
  run,
  straightPanel,
} from '../support/shaped-panels.ts';

const refused = (pattern: Pattern, what: MoveSeams) => caught(() => moveSeams(pattern, what));

/** The millimetres named in a hint such as `the largest amount that works is 12.3mm`. */
const largestIn = (hint: string | undefined): number => Number(/is ([\d.]+)mm$/.exec(hint ?? '')?.[1]);

test('a panel that would be too narrow at a level is refused with the largest amount', () => {
  const pattern = patternOf(straightPanel());
  const error = refused(pattern, takeIn(['cb'], 65));
  expect(error).toMatchObject({
    code: 'impossible',
    where: 'panel straight',
    message: 'would be under 10.00 mm wide at waist',
    hint: 'the largest amount that works is 60mm',
  });
});

test.each([
  ['straight', patternOf(straightPanel()), ['cb', 'cf']],
  ['curved', patternOf(curvedPanel()), ['cb']],
  ['cornered', patternOf(corneredPanel()), ['cf']],
])('the largest amount on a %s panel works, and a tenth of a millimetre more does not', (_, pattern, seams) => {
  const largest = largestIn(refused(pattern, takeIn(seams, 500)).hint);
  expect(largest).toBeGreaterThan(10);
  expect(() => moveSeams(pattern, takeIn(seams, largest))).not.toThrow();
  expect(refused(pattern, takeIn(seams, largest + 0.11)).code).toBe('impossible');
});

test('inches are offered in sixty-fourths', () => {
  const pattern = { ...patternOf(straightPanel()), units: 'in' as const };
  expect(refused(pattern, takeIn(['cb'], 65)).hint).toBe('the largest amount that works is 2 23/64in');
  expect(() => moveSeams(pattern, takeIn(['cb'], (2 + 23 / 64) * 25.4))).not.toThrow();
});

test('a girth is answered with a girth, amounts at levels with amounts at levels', () => {
  const pattern = patternOf(straightPanel());
  expect(refused(pattern, takeIn(['cb'], { kind: 'girth', girth: 400 })).hint).toBe(
    'the largest girth that works is 120mm',
  );
  const uneven = {
    kind: 'at',
    at: [
      { level: at('waist'), amount: 90 },
      { level: at('bust'), amount: 9 },
    ],
  } as const;
  const { hint } = refused(pattern, takeIn(['cb'], uneven));
  expect(hint).toMatch(/^the largest amounts like these that work are waist=[\d.]+mm, bust=[\d.]+mm$/);
});

/** Narrow in the middle, where no level is. */
const hourglass = panelOf({
  name: 'hourglass',
  seams: ['cf', 'cb'],
  top: run([0, -100], [100, -100]),
  back: run([100, -100], [60, 0], [100, 100]),
  bottom: run([100, 100], [0, 100]),
  front: run([0, 100], [40, 0], [0, -100]),
  levels: { bust: -80, waist: 60 },
});

test('a panel that would cross itself is refused, even where no level is', () => {
  const error = refused(patternOf(hourglass), takeIn(['cb'], 25));
  expect(error).toMatchObject({ where: 'panel hourglass', message: 'would cross itself' });
  expect(largestIn(error.hint)).toBeGreaterThan(19.8);
  expect(largestIn(error.hint)).toBeLessThan(20);
});

test('a panel that would lose a level is refused', () => {
  const panel = panelOf({
    name: 'gabled',
    seams: ['cf', 'cb'],
    top: run([0, -50], [100, -130]),
    back: run([100, -130], [100, 100]),
    bottom: run([100, 100], [0, 100]),
    front: run([0, 100], [0, -50]),
    levels: { bust: -40, waist: 0 },
  });
  const error = refused(patternOf(panel), letOut(['cf'], 20));
  expect(error).toMatchObject({ where: 'panel gabled', message: 'would lose its level bust' });
  expect(largestIn(error.hint)).toBe(12.5);
});

test('a seam that would get under 10 mm long is refused', () => {
  const panel = panelOf({
    name: 'flap',
    seams: ['cf', 'cb'],
    top: run([0, -40], [100, -40]),
    back: run([100, -40], [100, 40]),
    bottom: run([100, 40], [0, -25]),
    front: run([0, -25], [0, -40]),
    levels: { waist: -35 },
  });
  const error = refused(patternOf(panel), letOut(['cf'], 9));
  expect(error).toMatchObject({ message: 'would have a seam cf under 10.00 mm long' });
  expect(largestIn(error.hint)).toBe(7.6);
});

test('a width already under 10 mm may grow, but not shrink', () => {
  const panel = panelOf({
    name: 'sliver',
    seams: ['cf', 'cb'],
    top: run([0, -100], [40, -100]),
    back: run([40, -100], [8, 0], [40, 100]),
    bottom: run([40, 100], [0, 100]),
    front: run([0, 100], [0, -100]),
    levels: { waist: 0 },
  });
  expect(() => moveSeams(patternOf(panel), letOut(['cb'], 1))).not.toThrow();
  const error = refused(patternOf(panel), takeIn(['cb'], 1));
  expect(error.message).toBe('would be under 10.00 mm wide at waist');
  expect(error.hint).toMatch('no amount works there');
});

test('a square move that would fold the line is refused', () => {
  const panel = panelOf({
    name: 'hooked',
    seams: ['cf', 'cb'],
    top: run([0, -100], [100, -100]),
    back: run([100, -100], [100, -30, 130, 0, 100, 10], [80, 20, 100, 60, 100, 100]),
    bottom: run([100, 100], [0, 100]),
    front: run([0, 100], [0, -100]),
    levels: { waist: 50 },
  });
  const error = refused(patternOf(panel), takeIn(['cb'], 30, { square: true }));
  expect(error.code).toBe('impossible');
  expect(largestIn(error.hint)).toBeLessThan(30);
});

test('an amount that leaves no room for the cutting line is refused with the largest that does', () => {
  const panel = straightPanel();
  const cut = patternOf({ ...panel, cutting: outlineOf(panel) });
  const narrowest = 50;
  const redraw = (tried: Panel): Panel => {
    if (chordAt(tried, 0)!.width >= narrowest) return tried;
    throw new StaywrightError('impossible', 'the cutting line would cross itself at 40,0', { where: 'panel straight' });
  };
  const error = caught(() => moveSeams(cut, takeIn(['cb'], 30), redraw));
  expect(error).toMatchObject({
    code: 'impossible',
    where: 'panel straight',
    message: 'would have no sound cutting line (the cutting line would cross itself at 40,0)',
    hint: 'the largest amount that works is 20mm',
  });
});

test('panels that still carry allowance are refused as girth refuses them', () => {
  const cut = patternOf({ ...straightPanel(), line: 'cutting' });
  expect(refused(cut, takeIn(['cb'], 5))).toMatchObject({
    code: 'input',
    message: 'these panels still carry seam allowance',
  });
});

const pattern = halfPattern();

test.each<[string, MoveSeams, object]>([
  ['an unknown seam', takeIn(['side-bakc'], 5), { hint: 'did you mean side-back?' }],
  [
    'top, which is no seam',
    takeIn(['top'], 5),
    {
      message: 'no seam is called top',
      hint: 'top and bottom edges are moved by redraw-edge: --edge top --at side=6mm',
    },
  ],
  ['no seam', takeIn([], 5), { where: '--seam' }],
  ['no amount', takeIn(['cb'], 0), { where: '--amount' }],
  [
    'a girth that is nothing once shared',
    takeIn(['side'], { kind: 'girth', girth: 0.001 }),
    { where: '--girth', message: 'moves nothing once shared' },
  ],
  ['an amount that is no number', takeIn(['cb'], Number.NaN), { where: '--amount' }],
  [
    'an unknown level',
    takeIn(['cb'], 5, { where: { kind: 'above', level: at('wasit') } }),
    { hint: 'did you mean waist?' },
  ],
  [
    'a full amount on the wrong side',
    takeIn(['cb'], 5, { where: { kind: 'above', level: at('waist'), fullAt: at('hip') } }),
    { where: '--full-at', message: 'hip does not lie above waist' },
  ],
  [
    'a full amount outside',
    takeIn(['cb'], 5, { where: { kind: 'between', levels: [at('bust'), at('waist')], fullAt: at('hip') } }),
    { where: '--full-at' },
  ],
  [
    'between a level and itself',
    takeIn(['cb'], 5, { where: { kind: 'between', levels: [at('waist'), at('waist')] } }),
    { where: '--between' },
  ],
  [
    'a part that the seam does not reach',
    takeIn(['cb'], 5, { where: { kind: 'above', level: at('bust', 500) } }),
    { where: 'seam cb' },
  ],
  [
    'two amounts at one level',
    takeIn(['cb'], {
      kind: 'at',
      at: [
        { level: at('waist'), amount: 1 },
        { level: at('bust', -170), amount: 2 },
      ],
    }),
    { where: '--at' },
  ],
  [
    'amounts at levels on a part only',
    takeIn(
      ['cb'],
      { kind: 'at', at: [{ level: at('waist'), amount: 1 }] },
      { where: { kind: 'below', level: at('waist') } },
    ),
    { where: '--below' },
  ],
  [
    'a share for another seam',
    takeIn(['cb'], { kind: 'girth', girth: 5, share: { cb: 1, side: 2 } }),
    { where: '--share' },
  ],
  ['a missing share', takeIn(['cb', 'side'], { kind: 'girth', girth: 5, share: { cb: 1 } }), { where: '--share' }],
  ['a share of nothing', takeIn(['cb'], { kind: 'girth', girth: 5, share: { cb: 0 } }), { where: '--share' }],
  ['a square girth', takeIn(['cb'], { kind: 'girth', girth: 5 }, { square: true }), { where: '--square' }],
])('%s is a usage error that says what to do', (_, what, expected) => {
  const error = refused(pattern, what);
  expect(error).toMatchObject({ code: 'usage', ...expected });
  expect(error.hint).toBeTruthy();
});
