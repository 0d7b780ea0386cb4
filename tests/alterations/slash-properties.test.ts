import * as fc from 'fast-check';
import { expect, test, vi } from 'vitest';
import { StaywrightError } from '../../src/errors.ts';
import { slash, type Slashed } from '../../src/alterations/slash.ts';
import type { Slash } from '../../src/alterations/slash-options.ts';
import { pathLength } from '../../src/geometry/arc-length.ts';
import { chordAt } from '../../src/pattern/chord.ts';
import { findLevel, sidesOf } from '../../src/pattern/look-up.ts';
import { levelY } from '../../src/pattern/level-y.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { expectSound } from '../support/invariants.ts';
import { at } from '../support/moves.ts';
import { allShapes, mirrored, patternOf, withNotches } from '../support/shaped-panels.ts';

// A refusal looks for the largest spread that works: some thirty slashings.
vi.setConfig({ testTimeout: 120_000 });

const spread = fc
  .integer({ min: -1200, max: 2000 })
  .filter((n) => n !== 0)
  .map((hundredths) => hundredths / 100);

const level = fc
  .record({
    name: fc.constantFrom('bust', 'underbust', 'waist', 'high-hip', 'hip'),
    offset: fc.constantFrom(-20, 0, 20),
  })
  .map(({ name, offset }) => at(name, offset));

const numbers = {
  lines: fc.oneof(fc.integer({ min: 1, max: 4 }), fc.integer({ min: 5, max: 20 })),
  spread,
  keep: fc.constantFrom('front' as const, 'middle' as const, 'back' as const),
};

/** What is asked, but for the panel; without a hinge half the time it is parallel. */
type Asked = Omit<Slash, 'panel'>;

const down: fc.Arbitrary<Asked> = fc
  .record({
    from: fc.constantFrom('top', 'bottom'),
    hinge: fc.option(fc.oneof(level, fc.constant('opposite'))),
    ...numbers,
  })
  .map(({ from, hinge, ...more }) => {
    const end = hinge === 'opposite' ? at(from === 'top' ? 'bottom' : 'top') : hinge;
    return { from, at: [], ...more, ...(end === null || typeof end === 'string' ? {} : { hinge: end }) };
  });

const across: fc.Arbitrary<Asked> = fc
  .record({
    from: fc.constantFrom('cf', 'cb'),
    hinged: fc.boolean(),
    lines: fc.integer({ min: 1, max: 4 }),
    levels: fc.array(level, { maxLength: 2 }),
    spread,
  })
  .map(({ from, hinged, lines, levels, ...more }) => ({
    from,
    lines,
    at: levels,
    keep: 'middle' as const,
    ...more,
    ...(hinged ? { hinge: at(from === 'cf' ? 'cb' : 'cf') } : {}),
  }));

const patternIn = fc
  .record({ shape: fc.constantFrom(...allShapes), flip: fc.boolean() })
  .map(({ shape, flip }) => patternOf(withNotches(flip ? mirrored(shape()) : shape())));

/** The outcome, or undefined where it was refused; anything else that is thrown is a bug. */
const attempted = (before: Pattern, what: Asked): Slashed | undefined => {
  try {
    return slash(before, { ...what, panel: before.panels[0]!.name });
  } catch (error) {
    if (error instanceof StaywrightError) return undefined;
    throw error;
  }
};

const lengthOf = (panel: Panel, place: 'front' | 'back'): number => pathLength(sidesOf(panel)![place].path);

/** How far, in millimetres, the panel is off what the kind of slash promises: widths, lengths of seams, or all beyond the hinge. */
const offFromAsked = (old: Panel, now: Panel, { from, hinge, spread: each, lines }: Asked): number => {
  const grown = old.levels.map(({ y }) => ({ y, by: (chordAt(now, y)?.width ?? 0) - chordAt(old, y)!.width }));
  if (hinge === undefined) return Math.max(...grown.map(({ by }) => Math.abs(by - each * lines)));
  if (hinge.name === 'top' || hinge.name === 'bottom')
    return Math.max(
      ...(['front', 'back'] as const).map((place) => Math.abs(lengthOf(now, place) - lengthOf(old, place))),
    );
  const y = levelY(old, hinge);
  const beyond = grown.filter((row) => (from === 'top' ? row.y >= y : row.y <= y));
  return Math.max(0, ...beyond.map(({ by }) => Math.abs(by)));
};

test('whatever is asked of top or bottom, the result is sound and measures what was asked, or it is refused', () => {
  let done = 0;
  fc.assert(
    fc.property(patternIn, down, (before, what) => {
      const result = attempted(before, what);
      if (!result) return;
      done += 1;
      expectSound(before, result.pattern);
      expect(offFromAsked(before.panels[0]!, result.pattern.panels[0]!, what)).toBeLessThan(0.001);
    }),
    { numRuns: 50 },
  );
  expect(done).toBeGreaterThan(20);
});

test('whatever is asked of a seam, the result is sound and the waist stays, or it is refused', () => {
  let done = 0;
  fc.assert(
    fc.property(patternIn, across, (before, what) => {
      const result = attempted(before, what);
      if (!result) return;
      done += 1;
      expectSound(before, result.pattern);
      const [old, now] = [before.panels[0]!, result.pattern.panels[0]!];
      expect(findLevel(now, 'waist')!.y).toBeCloseTo(findLevel(old, 'waist')!.y, 9);
    }),
    { numRuns: 40 },
  );
  expect(done).toBeGreaterThan(15);
});
