import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { redrawEdge, type RedrawnEdge } from '../../src/alterations/redraw-edge.ts';
import type { RedrawEdge } from '../../src/alterations/redraw-edge-options.ts';
import { StaywrightError } from '../../src/errors.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { halfPattern as bodice } from '../support/half-pattern.ts';
import { farthestOff } from '../support/farthest-off.ts';
import { expectSound } from '../support/invariants.ts';
import { allShapes, halfPattern, mirrored, patternOf, withNotches } from '../support/shaped-panels.ts';

const BOUND = 0.1;

const nodesOf = (pattern: Pattern): number =>
  pattern.panels.flatMap(({ edges }) => edges).reduce((sum, { path }) => sum + path.segments.length, 0);

const notchesOff = (before: Pattern, after: Pattern): number =>
  Math.max(
    0,
    ...before.panels.flatMap((panel, i) =>
      panel.notches.map((notch, j) => {
        const now = after.panels[i]!.notches[j]!;
        return Math.hypot(now.at.x - notch.at.x, now.at.y - notch.at.y);
      }),
    ),
  );

const opposite = (what: RedrawEdge): RedrawEdge => ({
  ...what,
  at: what.at.map(({ seam, amount }) => ({ seam, amount: -amount })),
});

/** 25 lines of every kind, up and down, at the seams of a pattern. */
const linesOn = (seams: readonly string[], size: number): readonly RedrawEdge[] =>
  Array.from({ length: 25 }, (_, i) => {
    const amount = (0.5 + ((i * 7) % 11) * 0.7) * size;
    const one = seams[i % seams.length]!;
    const other = seams[(i * 3 + 1) % seams.length]!;
    const at =
      one === other
        ? [{ seam: one, amount }]
        : [
            { seam: one, amount },
            { seam: other, amount: -amount / 2 },
          ];
    return {
      edge: i % 2 === 0 ? 'top' : 'bottom',
      at: i % 3 === 0 ? at.map((a) => ({ ...a, amount: -a.amount })) : at,
    };
  });

const afterAll = (pattern: Pattern, lines: readonly RedrawEdge[]): { readonly end: Pattern; readonly most: number } => {
  let [end, most] = [pattern, nodesOf(pattern)];
  for (const [i, what] of lines.entries()) {
    const next = redrawEdge(end, what).pattern;
    if (i % 7 === 0) expectSound(end, next);
    end = next;
    most = Math.max(most, nodesOf(end));
  }
  return { end, most };
};

const notched = (pattern: Pattern): Pattern => ({ ...pattern, panels: pattern.panels.map(withNotches) });

/** Each with the size of its lines: the bodice has only a finger's width between its lowest level and its bottom. */
const patterns: readonly (readonly [string, Pattern, readonly string[], number])[] = [
  ...allShapes
    .flatMap((shape) => [shape(), mirrored(shape())])
    .map((panel, i) => [`${panel.name} ${i % 2}`, patternOf(withNotches(panel)), ['cf', 'cb'], 1] as const),
  ['half pattern', notched(halfPattern()), ['cf', 'front-side', 'side', 'side-back', 'cb'], 1],
  ['bodice', bodice(), ['cf', 'bust-seam', 'side', 'back-seam', 'cb'], 0.4],
];

describe.each(patterns)('on %s', (_, pattern, seams, size) => {
  const lines = linesOn(seams, size);

  test('25 lines, each undone at once, end where they began', () => {
    const { end, most } = afterAll(
      pattern,
      lines.flatMap((what) => [what, opposite(what)]),
    );
    expect(farthestOff(pattern, end)).toBeLessThan(BOUND);
    expect(notchesOff(pattern, end)).toBeLessThan(BOUND);
    expect(most).toBeLessThan(3 * nodesOf(pattern) + 20);
  });

  test('25 lines and then their opposites, last first, end where they began', () => {
    const { end, most } = afterAll(pattern, [...lines, ...lines.toReversed().map(opposite)]);
    expect(farthestOff(pattern, end)).toBeLessThan(BOUND);
    expect(notchesOff(pattern, end)).toBeLessThan(BOUND);
    expect(most).toBeLessThan(3 * nodesOf(pattern) + 20);
  });
});

const amount = fc.integer({ min: -250, max: 250 }).map((tenths) => tenths / 10);

const asked = (seams: readonly string[]): fc.Arbitrary<RedrawEdge> =>
  fc.record({
    edge: fc.constantFrom('top' as const, 'bottom' as const),
    at: fc
      .record({
        names: fc.subarray([...seams], { minLength: 1 }),
        amounts: fc.array(amount, { minLength: seams.length, maxLength: seams.length }),
      })
      .map(({ names, amounts }) => names.map((seam, i) => ({ seam, amount: amounts[i]! }))),
  });

/** The outcome, or undefined where it was refused; anything else that is thrown is a bug. */
const attempted = (before: Pattern, what: RedrawEdge): RedrawnEdge | undefined => {
  try {
    return redrawEdge(before, what);
  } catch (error) {
    if (error instanceof StaywrightError) return undefined;
    throw error;
  }
};

test('whatever is asked, each seam changes by exactly its amount and the result is sound, or it is refused', () => {
  let done = 0;
  fc.assert(
    fc.property(
      fc.constantFrom(...patterns).chain(([, pattern, seams]) => fc.tuple(fc.constant(pattern), asked(seams))),
      ([before, what]) => {
        const moved = attempted(before, what);
        if (!moved) return;
        done += 1;
        expectSound(before, moved.pattern);
        const named = new Map(what.at.map((at) => [at.seam, at.amount]));
        const outward = what.edge === 'top' ? 1 : -1;
        for (const { seam, raised, edges } of moved.change.seams) {
          expect(raised).toBe(named.get(seam) ?? raised);
          for (const { before: was, after } of edges) expect(after - was).toBeCloseTo(outward * raised, 3);
        }
      },
    ),
    { numRuns: 60 },
  );
  expect(done).toBeGreaterThan(20);
});
