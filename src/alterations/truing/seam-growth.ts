/** How far the corners of panels must slide along a seam until its two edges are equal. */

import { StaywrightError } from '../../errors.ts';
import { formatLength } from '../../pattern/format-length.ts';
import { seamWords } from '../../pattern/look-up.ts';
import type { Units } from '../../pattern/pattern.ts';
import { differenceAlong, partsOf, type CornerEdge, type SeamPart, type SeamWalk } from '../../pattern/seam-walk.ts';
import { CAUTION } from '../true-seams-options.ts';

/** Edges that differ by no more are left as they are: far above what rounding does, far below what can be sewn. */
const EQUAL = 0.05;

/** Edges that differ by more, an inch, were never drawn for each other, or one was altered alone: truing would only hide it. */
const MOST_TRUED = 25.4;

/** Millimetres of seam length by which one edge of a seam grows at its two ends; negative where it is trimmed. */
export type Growth = Readonly<Record<CornerEdge, number>>;

const NONE: Growth = { top: 0, bottom: 0 };

/** The corner that slides to change a part of a seam: away from where the edges are matched. */
const cornerOf = ({ from }: SeamWalk, part: SeamPart): CornerEdge => {
  if (part === 'whole') return from === 'top' ? 'bottom' : 'top';
  return part === 'above' ? 'top' : 'bottom';
};

const refuseTooMuch = (walk: SeamWalk, part: SeamPart, by: number, units: Units): void => {
  if (Math.abs(by) <= MOST_TRUED) return;
  const place = part === 'whole' ? '' : ` ${part} the waist`;
  throw new StaywrightError('impossible', `its edges differ by ${formatLength(Math.abs(by), units)}${place}`, {
    where: `seam ${seamWords(walk.seam)}`,
    hint: `up to ${formatLength(MOST_TRUED, units)} can be trued: lengthen or shorten one panel first`,
  });
};

/**
 * What the first and the second edge of a seam grow, each by its part of the difference. Differences of at most 0.05 mm are left alone.
 *
 * @throws impossible where a part differs by more than an inch.
 */
export const seamGrowth = (
  walk: SeamWalk,
  taken: readonly [number, number],
  units: Units,
): readonly [Growth, Growth] => {
  const differences = partsOf(walk).map((part) => ({ part, by: differenceAlong(walk, part) }));
  for (const { part, by } of differences) refuseTooMuch(walk, part, by, units);
  if (differences.every(({ by }) => Math.abs(by) <= EQUAL)) return [NONE, NONE];
  const off = differences.filter(({ by }) => Math.abs(by) > EQUAL / CAUTION);
  const grown = (share: number): Growth => ({
    ...NONE,
    ...Object.fromEntries(off.map(({ part, by }) => [cornerOf(walk, part), by * share])),
  });
  return [grown(-taken[0]), grown(taken[1])];
};
