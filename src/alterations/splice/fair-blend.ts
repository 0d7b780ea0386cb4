/**
 * How long a blend must be to look fair. Where a line moves aside by d over a blend of length b, weighted 3t^2 - 2t^3, it leans in
 * the middle by 1.5 d / b more than either of its sources: over a short way a bend that shows as a knee.
 */

import { monotoneBlend } from '../../geometry/monotone-blend.ts';
import { MM_PER_INCH } from '../../pattern/format-length.ts';
import type { Units } from '../../pattern/pattern.ts';

/** The slope of the weight in the middle of a blend, against its mean. */
const STEEPEST = monotoneBlend(
  [
    { at: 0, value: 0 },
    { at: 1, value: 1 },
  ],
  'flat',
).slope(1 / 2);

/** A line that leans one in four is fair: a blend six times what the line moves, with a hair for rounding. Common practice. */
const FAIR = 0.255;

/** Leaning more than about one in three shows as a knee. Common practice. */
const STEEP = 0.35;

/** What a blend is made longer by, and the longest that is looked at. */
const STEPS: Readonly<Record<Units, number>> = { mm: 10, in: MM_PER_INCH / 2 };
const LONGEST = 400;

/** A longer blend must gain so much, or it is not worth its length: where versions part ever further no blend is gentle. */
const WORTH = 0.01;

/** How far the lines of a pattern move at most over a blend; undefined where a panel ends before the blend does. */
export type StepOver = (blend: number) => number | undefined;

/** By how much a line leans more than it did where the blend is steepest, sideways for each millimetre along. */
const leanOver = (blend: number, step: number): number => (STEEPEST * step) / blend;

export const isSteep = (blend: number, step: number): boolean => leanOver(blend, step) > STEEP;

/**
 * The shortest blend, of `least` and whole half inches or 10 mm more, over which no line leans by more than one in four; where there is
 * no such, the one over which they lean least, of those with room.
 */
export const fairBlend = (least: number, units: Units, stepOver: StepOver): number => {
  let [best, leanest] = [least, Infinity];
  for (let blend = least; blend <= LONGEST; blend += STEPS[units]) {
    const step = stepOver(blend);
    if (step === undefined) break;
    const lean = leanOver(blend, step);
    if (lean <= FAIR) return blend;
    if (lean < leanest - WORTH) [best, leanest] = [blend, lean];
  }
  return best;
};
