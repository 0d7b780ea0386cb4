import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { StaywrightError } from '../../src/errors.ts';
import { moveSeams, type MovedSeams } from '../../src/alterations/move-seams.ts';
import type { MoveSeams } from '../../src/alterations/move-seams-options.ts';
import type { Where } from '../../src/alterations/seams/amount-along.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { expectSound } from '../support/invariants.ts';
import { at } from '../support/moves.ts';
import { allShapes, mirrored, patternOf, withNotches } from '../support/shaped-panels.ts';

const NAMES = ['bust', 'underbust', 'waist', 'high-hip', 'hip'] as const;

/** No taper is shorter than 10 mm: 25 mm faded out over less is a step, which needs more nodes where a seam passes it three times. */
const level = fc
  .record({ name: fc.constantFrom(...NAMES), offset: fc.constantFrom(-30, -20, 0, 20, 30) })
  .map((l) => at(l.name, l.offset));

const where: fc.Arbitrary<Where> = fc.oneof(
  fc.constant<Where>({ kind: 'whole' }),
  fc.record({ kind: fc.constantFrom('above' as const, 'below' as const), level }),
  fc.record({ kind: fc.constant('between' as const), levels: fc.tuple(level, level) }),
);

const amount = fc.integer({ min: -2500, max: 2500 }).map((hundredths) => hundredths / 100);

const move: fc.Arbitrary<MoveSeams> = fc.record({
  seams: fc.constantFrom(['cb'], ['cf'], ['cb', 'cf']),
  direction: fc.constantFrom('in' as const, 'out' as const),
  by: fc.record({ kind: fc.constant('amount' as const), amount }),
  where,
  square: fc.constant(false),
});

const uneven: fc.Arbitrary<MoveSeams> = fc
  .record({
    seams: fc.constantFrom(['cb'], ['cb', 'cf']),
    names: fc.subarray([...NAMES], { minLength: 1 }),
    amounts: fc.array(amount, { minLength: 5, maxLength: 5 }),
  })
  .map(({ seams, names, amounts }) => ({
    seams,
    direction: 'out' as const,
    by: { kind: 'at' as const, at: names.map((name, i) => ({ level: at(name), amount: amounts[i]! })) },
    where: { kind: 'whole' as const },
    square: false,
  }));

const patternIn = (shapes: readonly (() => Panel)[]) =>
  fc
    .record({ shape: fc.constantFrom(...shapes), flip: fc.boolean() })
    .map(({ shape, flip }) => patternOf(withNotches(flip ? mirrored(shape()) : shape())));

/** The outcome, or undefined where the alteration was refused; anything else that is thrown is a bug. */
const attempted = (before: Pattern, what: MoveSeams): MovedSeams | undefined => {
  try {
    return moveSeams(before, what);
  } catch (error) {
    if (error instanceof StaywrightError) return undefined;
    throw error;
  }
};

/** How far the girth is off what the report says, at the worst level. */
const worstGirth = ({ change }: MovedSeams): number =>
  Math.max(
    ...change.girth.map(({ before, after }, i) => {
      const asked = change.seams.reduce((sum, seam) => sum + seam.levels[i]!.roundBody!, 0);
      return Math.abs(after - before - (change.direction === 'in' ? -asked : asked));
    }),
  );

test('whatever is asked, the result is sound and the girth changes by what the report says, or it is refused', () => {
  let done = 0;
  fc.assert(
    fc.property(patternIn(allShapes), fc.oneof(move, uneven), (before, what) => {
      const moved = attempted(before, what);
      if (!moved) return;
      done += 1;
      expectSound(before, moved.pattern);
      expect(worstGirth(moved)).toBeLessThan(0.01 * 4);
    }),
    { numRuns: 150 },
  );
  expect(done).toBeGreaterThan(50);
});

/**
 * Without the seam that turns back upwards: a square amount that changes with the height has, along a stretch that is nearly level,
 * more bends than the nodes allowed for an edge can follow.
 */
const steadyShapes = allShapes.filter((shape) => shape().name !== 'swinging');

test('square moves are sound or refused', () => {
  let done = 0;
  fc.assert(
    fc.property(patternIn(steadyShapes), move, (before, what) => {
      const moved = attempted(before, { ...what, square: true });
      if (!moved) return;
      done += 1;
      expectSound(before, moved.pattern);
    }),
    { numRuns: 80 },
  );
  expect(done).toBeGreaterThan(20);
});
