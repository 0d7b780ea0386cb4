import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import type { GussetWanted } from '../../src/alterations/gusset-options.ts';
import { setGusset } from '../../src/alterations/gusset.ts';
import { parseLength } from '../../src/cli/parse-length.ts';
import { StaywrightError } from '../../src/errors.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { caught } from '../support/caught.ts';
import { expectSetIn, intoSeam, intoSlit } from '../support/gussets.ts';
import { at } from '../support/moves.ts';
import { allShapes, curvedPanel, halfPattern, mirrored, patternOf, straightPanel } from '../support/shaped-panels.ts';

const seam = (name: string, offset = -40): GussetWanted => ({
  place: { kind: 'seam', seam: name, below: at('waist', offset) },
  width: 40,
  sides: 'straight',
});

const refused = (wanted: GussetWanted, pattern: Pattern = halfPattern()) => caught(() => setGusset(pattern, wanted));

const cutting = (): Pattern => ({
  ...halfPattern(),
  panels: halfPattern().panels.map((p) => ({ ...p, line: 'cutting' })),
});

const withGusset = (): Pattern => setGusset(halfPattern(), intoSeam(60)).pattern;

test.each<[string, () => StaywrightError, object]>([
  ['a seam of one edge', () => refused(seam('cb')), { code: 'usage', where: 'seam cb' }],
  [
    'a length beyond the seam',
    () => refused({ ...intoSeam(40), place: { kind: 'seam', seam: 'side', length: 900 } }),
    {
      code: 'impossible',
      where: '--length',
      message: expect.stringMatching(/^900\.00 mm is longer than seam side on panel \S+, \d+\.\d\d mm$/),
    },
  ],
  ['an unknown seam', () => refused(seam('sidd')), { code: 'usage', hint: 'did you mean side?' }],
  ['a level above the top', () => refused(seam('side', 400)), { code: 'impossible', where: 'level waist+400mm' }],
  ['a level below the bottom', () => refused(seam('side', -300)), { code: 'impossible', where: 'level waist-300mm' }],
  ['a short opening', () => refused(seam('side', -180)), { code: 'impossible', hint: 'it must be 10.00 mm or more' }],
  ['no width', () => refused(intoSeam(0)), { code: 'usage', where: '--width' }],
  ['a width that nobody could sew', () => refused(intoSeam(4.9)), { code: 'impossible', where: '--width' }],
  ['a negative width', () => refused(intoSeam(-5)), { code: 'usage', where: '--width' }],
  ['panels that carry allowance', () => refused(intoSeam(60), cutting()), { code: 'input' }],
  [
    'a seam that holds one already',
    () => refused(intoSeam(40), withGusset()),
    { code: 'usage', hint: '--name side-gusset takes that one out first' },
  ],
  ['a name that a panel has', () => refused(intoSeam(40, { name: 'back' })), { code: 'usage', where: '--name' }],
  ['no name', () => refused(intoSeam(40, { name: ' ' })), { code: 'usage', where: '--name' }],
  ['an unknown panel', () => refused(intoSlit('sidefront', 0.5, 30)), { code: 'usage' }],
  [
    'a slit of a gusset',
    () => refused(intoSlit('side-gusset', 0.5, 30), withGusset()),
    { code: 'usage', where: 'panel side-gusset' },
  ],
  [
    'a slit that leaves its panel',
    () => refused(intoSlit('front', 0.02, 30, 150)),
    { code: 'impossible', where: 'panel front' },
  ],
  [
    'a slit in a slit',
    () => refused(intoSlit('front', 0.52, 30), setGusset(halfPattern(), intoSlit('front', 0.5, 30)).pattern),
    { code: 'usage', hint: '--name front-gusset takes that one out first' },
  ],
])('%s is refused', (_, refusal, expected) => {
  expect(refusal()).toMatchObject(expected);
});

test('a length that contradicts the level is refused with what the opening is', () => {
  const straight = straightPanel('fore', ['cf', 'side']);
  const pattern = patternOf(straight, mirrored(straightPanel('aft', ['side', 'cb'])));
  const place = { kind: 'seam', seam: 'side', below: at('waist') } as const;
  const length = Math.hypot(25, 180);
  const error = refused({ place: { ...place, length: length + 0.02 }, width: 40, sides: 'straight' }, pattern);
  expect(error).toMatchObject({ code: 'usage', where: '--length' });
  expect(error.message).toBe(
    `from waist down the opening is ${length.toFixed(2)} mm on fore and ${length.toFixed(2)} mm on aft`,
  );
  const agreed = setGusset(pattern, { place: { ...place, length: length + 0.005 }, width: 40, sides: 'straight' });
  expectSetIn(pattern, agreed.pattern);
});

test('a width that closes no triangle is refused with the largest that does', () => {
  const pattern = halfPattern();
  const error = refused(intoSeam(400), pattern);
  expect(error).toMatchObject({ code: 'impossible', message: '400.00 mm is wider than the two sides together' });
  const largest = parseLength(/is ([\d.]+mm)$/.exec(error.hint!)![1]!, 'hint');
  expectSetIn(pattern, setGusset(pattern, intoSeam(largest)).pattern);
  expect(refused(intoSeam(largest + 0.11), pattern).code).toBe('impossible');
});

test('a width that does not bridge unequal openings is refused', () => {
  const pattern = patternOf(straightPanel('fore', ['cf', 'side']), curvedPanel('aft', ['side', 'cb']));
  expect(refused(intoSeam(1), pattern)).toMatchObject({ code: 'impossible', where: '--width' });
});

const renamed = (panel: Panel, name: string, seams: readonly [string, string]) => ({
  ...panel,
  name,
  edges: panel.edges.map((edge, i) => (i % 2 === 0 ? edge : { ...edge, name: seams[i === 3 ? 0 : 1]! })),
});

test('whatever is asked, a gusset fits or is refused, and nothing else changes', () => {
  let set = 0;
  const shape = fc
    .constantFrom(...allShapes)
    .chain((make) => fc.boolean().map((flip) => (flip ? mirrored(make()) : make())));
  const wanted: fc.Arbitrary<GussetWanted> = fc.record({
    place: fc.oneof(
      fc.integer({ min: -170, max: 190 }).map((y) => ({ kind: 'seam', seam: 'side', below: at('waist', -y) }) as const),
      fc.integer({ min: 5, max: 250 }).map((length) => ({ kind: 'seam', seam: 'side', length }) as const),
      fc
        .record({ y: fc.integer({ min: -150, max: 170 }), hundredths: fc.integer({ min: 3, max: 97 }) })
        .map(
          ({ y, hundredths }) =>
            ({ kind: 'slit', panel: 'fore', level: at('waist', -y), fraction: hundredths / 100 }) as const,
        ),
    ),
    width: fc.integer({ min: 1, max: 3000 }).map((tenths) => tenths / 10),
    sides: fc.constantFrom('straight' as const, 'curved' as const),
  });
  fc.assert(
    fc.property(shape, shape, wanted, (fore, aft, what) => {
      const pattern = patternOf(renamed(fore, 'fore', ['cf', 'side']), renamed(aft, 'aft', ['side', 'cb']));
      try {
        expectSetIn(pattern, setGusset(pattern, what).pattern);
        set += 1;
      } catch (error) {
        if (!(error instanceof StaywrightError) || error.code !== 'impossible') throw error;
      }
    }),
    { numRuns: 150 },
  );
  expect(set).toBeGreaterThan(50);
});
