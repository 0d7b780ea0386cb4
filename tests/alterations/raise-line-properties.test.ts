import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { changeLength } from '../../src/alterations/change-length.ts';
import { raiseLine } from '../../src/alterations/raise-line.ts';
import type { LevelHeight } from '../../src/alterations/heights/level-heights.ts';
import { StaywrightError } from '../../src/errors.ts';
import { chordAt } from '../../src/pattern/chord.ts';
import { findLevel } from '../../src/pattern/look-up.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { expectSound } from '../support/invariants.ts';
import { at } from '../support/moves.ts';
import { allShapes, farthestApart, mirrored, patternOf, withNotches } from '../support/shaped-panels.ts';

const NAMES = ['bust', 'underbust', 'waist', 'high-hip', 'hip'] as const;

interface Asked {
  readonly amount: number;
  readonly levels: readonly string[];
  readonly from: { readonly name: string; readonly offset: number };
  readonly to: { readonly name: string; readonly offset: number };
}

interface Done {
  readonly pattern: Pattern;
  readonly change: { readonly heights: readonly LevelHeight[] };
}

const ref = fc.record({
  name: fc.constantFrom(...NAMES, 'top', 'bottom'),
  offset: fc.constantFrom(-30, -10, 0, 0, 10, 30),
});

const asked: fc.Arbitrary<Asked> = fc.record({
  amount: fc.integer({ min: -4000, max: 4000 }).map((hundredths) => hundredths / 100),
  levels: fc.subarray([...NAMES], { minLength: 1, maxLength: 3 }),
  from: ref,
  to: ref,
});

const pattern = fc
  .record({ shape: fc.constantFrom(...allShapes), flip: fc.boolean() })
  .map(({ shape, flip }) => patternOf(withNotches(flip ? mirrored(shape()) : shape())));

/** The outcome, or undefined where it was refused; anything else that is thrown is a bug. */
const attempted = (run: () => Done): Done | undefined => {
  try {
    return run();
  } catch (error) {
    if (error instanceof StaywrightError) return undefined;
    throw error;
  }
};

const raise = (before: Pattern, { levels, amount }: Asked): Done =>
  raiseLine(before, { levels: levels.map((name) => at(name)), amount, hold: [] });

const lengthen = (before: Pattern, { from, to, amount }: Asked): Done =>
  changeLength(before, { between: [at(from.name, from.offset), at(to.name, to.offset)], amount, direction: 'longer' });

/** A seam that passes the same heights three times may need its fit eased to keep its nodes few; all others stay within a hundredth. */
const bound = (before: Pattern): number => (before.panels[0]!.name === 'swinging' ? 0.2 : 0.01);

/** How far the worst width at a level is off what it was. */
const worstWidth = (before: Pattern, after: Pattern): number => {
  const [old, now] = [before.panels[0]!, after.panels[0]!];
  return Math.max(
    ...old.levels.map(({ name, y }) => Math.abs(chordAt(now, findLevel(now, name)!.y)!.width - chordAt(old, y)!.width)),
  );
};

/** How far off the start the opposite ends; 0 for levels with an offset, which count from a level that may lie elsewhere now. */
const farthestBack = (
  before: Pattern,
  after: Pattern,
  undo: (pattern: Pattern) => Done,
  { from, to }: Asked,
): number => {
  if (from.offset !== 0 || to.offset !== 0) return 0;
  const back = undo(after).pattern;
  return Math.max(
    ...before.panels[0]!.edges.map((edge, i) => farthestApart(edge.path, back.panels[0]!.edges[i]!.path)),
  );
};

test.each([
  ['raised', raise],
  ['lengthened', lengthen],
])(
  'whatever is %s, the result is sound, every level keeps its width, and the opposite brings it back, or it is refused',
  (_, alter) => {
    let count = 0;
    fc.assert(
      fc.property(pattern, asked, (before, what) => {
        const done = attempted(() => alter(before, what));
        if (!done) return;
        count += 1;
        expectSound(before, done.pattern);
        expect(worstWidth(before, done.pattern)).toBeLessThan(bound(before));
        expect(
          farthestBack(before, done.pattern, (now) => alter(now, { ...what, amount: -what.amount }), what),
        ).toBeLessThan(bound(before));
      }),
      { numRuns: 50 },
    );
    expect(count).toBeGreaterThan(20);
  },
);
