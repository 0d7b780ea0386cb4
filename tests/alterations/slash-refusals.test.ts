import { describe, expect, test } from 'vitest';
import { setGusset } from '../../src/alterations/gusset.ts';
import { slash } from '../../src/alterations/slash.ts';
import type { Slash } from '../../src/alterations/slash-options.ts';
import { StaywrightError } from '../../src/errors.ts';
import { chordAt } from '../../src/pattern/chord.ts';
import { outlineOf } from '../../src/pattern/outline.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { caught } from '../support/caught.ts';
import { intoSeam } from '../support/gussets.ts';
import { at } from '../support/moves.ts';
import { halfPattern, panelOf, patternOf, run } from '../support/shaped-panels.ts';
import { boxPanel, parallel, slashing } from '../support/slashes.ts';

const box = patternOf(boxPanel());

/** Wide at both ends, 30 mm at the waist. */
const waisted = panelOf({
  name: 'waisted',
  seams: ['cf', 'cb'],
  top: run([0, -100], [100, -100]),
  back: run([100, -100], [65, 0], [100, 100]),
  bottom: run([100, 100], [0, 100]),
  front: run([0, 100], [35, 0], [0, -100]),
  levels: { bust: -80, waist: 0 },
});

const refused = (pattern: Pattern, what: Slash) => caught(() => slash(pattern, what));

test('a gusset is not slashed', () => {
  const pattern = setGusset(halfPattern(), intoSeam(40)).pattern;
  const what = { ...slashing({ from: 'bottom', spread: 6 }), panel: 'side-gusset' };
  expect(refused(pattern, what)).toMatchObject({
    code: 'usage',
    where: 'panel side-gusset',
    hint: 'set it in as it should be: staywright gusset with --name side-gusset',
  });
});

const largestIn = (hint: string | undefined): number => Number(/is (-?[\d.]+)mm$/.exec(hint ?? '')?.[1]);

/** A cutting line that can only be drawn round a waist of 90 mm and more. */
const drawnFrom90 = (tried: Panel): Panel => {
  if (chordAt(tried, 0)!.width >= 90) return tried;
  throw new StaywrightError('impossible', 'the cutting line would cross itself', { where: 'panel box' });
};

describe('what cannot be done is refused with the largest spread that works', () => {
  test.each<[string, Pattern, Slash, string]>([
    [
      'a part turned too far',
      box,
      slashing({ spread: 200, keep: 'front' }),
      'would have a part turned by more than 45 degrees',
    ],
    ['a panel overlapped too narrow', box, parallel({ spread: -40, lines: 3 }), 'would have a part overlapped away'],
    [
      'too narrow a waist',
      patternOf(waisted),
      parallel({ panel: 'waisted', from: 'top', spread: -25 }),
      'would be under 10.00 mm wide at waist',
    ],
    [
      'levels that would lie one on the other',
      box,
      parallel({ from: 'cb', at: [at('waist', 50)], spread: -110 }),
      'would lose its level waist',
    ],
    [
      'a seam too short to give way beside a level',
      box,
      slashing({ hinge: at('bottom', 30), spread: 12, lines: 3 }),
      'would have a seam cf that turns back on itself beside the hinge',
    ],
  ])('%s', (_, pattern, what, message) => {
    const error = refused(pattern, what);
    expect(error).toMatchObject({ code: 'impossible', where: `panel ${what.panel}`, message });
    const largest = largestIn(error.hint);
    expect(Math.sign(largest)).toBe(Math.sign(what.spread));
    expect(() => slash(pattern, { ...what, spread: largest })).not.toThrow();
    const more = largest + Math.sign(what.spread) * 0.2;
    expect(refused(pattern, { ...what, spread: more }).code).toBe('impossible');
  });

  test('a cutting line that cannot be drawn', () => {
    const panel = boxPanel();
    const cut = patternOf({ ...panel, cutting: outlineOf(panel) });
    const error = caught(() => slash(cut, parallel({ spread: -20 }), drawnFrom90));
    expect(error).toMatchObject({
      message: 'would have no sound cutting line (the cutting line would cross itself)',
      hint: 'the largest amount that works is -10mm',
    });
  });
});

test('a slash under 10 mm long is refused, with what to do instead of an amount', () => {
  expect(refused(box, slashing({ hinge: at('bottom', 6) }))).toMatchObject({
    code: 'impossible',
    message: 'a slash would be under 10.00 mm long',
    hint: 'give a --hinge farther from the edge that opens',
  });
});

test('a slash across that no straight line could follow is refused', () => {
  const notched = panelOf({
    name: 'notched',
    seams: ['cf', 'cb'],
    top: run([0, -200], [50, 60], [100, -200]),
    back: run([100, -200], [100, 180]),
    bottom: run([100, 180], [0, 180]),
    front: run([0, 180], [0, -200]),
    levels: { bust: -100, waist: 0 },
  });
  const what = slashing({ panel: 'notched', from: 'cb', hinge: at('cf'), at: [at('waist')], spread: 3 });
  expect(refused(patternOf(notched), what)).toMatchObject({
    code: 'impossible',
    where: 'panel notched',
    message: 'a slash from cb would leave the panel',
  });
});

const half = halfPattern();

test.each<[string, Slash, object]>([
  ['an unknown panel', slashing({ panel: 'side-frnt' }), { hint: 'did you mean side-front?' }],
  ['an unknown edge', slashing({ panel: 'back', from: 'botom' }), { where: '--from', hint: 'did you mean bottom?' }],
  ['a seam of another panel', slashing({ panel: 'back', from: 'cf' }), { where: '--from' }],
  ['no lines', slashing({ panel: 'back', lines: 0 }), { where: '--lines' }],
  ['half a line', slashing({ panel: 'back', lines: 1.5 }), { where: '--lines' }],
  ['too many lines', slashing({ panel: 'back', lines: 21 }), { where: '--lines' }],
  ['a spread of nothing', slashing({ panel: 'back', spread: 0 }), { where: '--spread' }],
  ['a spread that is no number', slashing({ panel: 'back', spread: Number.NaN }), { where: '--spread' }],
  [
    'a hinge where it opens',
    slashing({ panel: 'back', hinge: at('bottom') }),
    { where: '--hinge', hint: 'right through is --hinge top' },
  ],
  ['a hinge on a seam, from bottom', slashing({ panel: 'back', hinge: at('cb') }), { where: '--hinge' }],
  ['an unknown level', slashing({ panel: 'back', hinge: at('waste') }), { hint: 'did you mean waist?' }],
  ['a hinge above the panel', slashing({ panel: 'back', hinge: at('waist', 300) }), { where: '--hinge' }],
  ['a level for slashes from bottom', slashing({ panel: 'back', at: [at('waist')] }), { where: '--level' }],
  [
    'from a seam to a level',
    slashing({ panel: 'back', from: 'cb' }),
    { where: '--hinge', hint: 'write --hinge side-back' },
  ],
  ['from a seam to itself', slashing({ panel: 'back', from: 'cb', hinge: at('cb') }), { where: '--hinge' }],
  [
    'from a seam, keeping the front',
    slashing({ panel: 'back', from: 'cb', hinge: at('side-back'), keep: 'front' }),
    { where: '--keep' },
  ],
  [
    'a level given twice',
    slashing({ panel: 'back', from: 'cb', hinge: at('side-back'), at: [at('waist'), at('bust', -170)] }),
    { where: '--level' },
  ],
  [
    'a level off the panel',
    slashing({ panel: 'back', from: 'cb', hinge: at('side-back'), at: [at('waist', 900)] }),
    { where: '--level' },
  ],
])('%s is a usage error that says what to do', (_, what, expected) => {
  const error = refused(half, what);
  expect(error).toMatchObject({ code: 'usage', ...expected });
  expect(error.hint).toBeTruthy();
});

test('panels that still carry allowance, or were never labelled, are refused', () => {
  const cut = patternOf({ ...boxPanel(), line: 'cutting' });
  expect(refused(cut, slashing())).toMatchObject({ code: 'input', message: 'these panels still carry seam allowance' });
  const plain = boxPanel();
  const bare = patternOf({ ...plain, edges: plain.edges.map((edge, i) => ({ ...edge, name: `edge-${i}` })) });
  expect(refused(bare, slashing())).toMatchObject({ code: 'input', where: 'panel box' });
});
