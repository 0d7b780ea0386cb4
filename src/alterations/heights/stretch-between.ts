/**
 * Making the part between two heights longer or shorter while all beyond it moves as it is. Measured from a centre, w is the share of the
 * way to the height on that side, and w^2 goes to r w^2 / (1 + (r - 1) w^2), r being the new length over the old. These maps are one
 * group: they fold nowhere, two after each other are the one of both amounts, and the opposite amount is the exact inverse. The slope,
 * (r / (1 + (r - 1) w^2))^(3/2), is 1 at both heights, so that seams run on without a kink, and has none at the centre.
 */

import type { AmountUpright } from './shift-upright.ts';

/** The heights on one panel, y down, and the one between them from which the stretch goes both ways. */
export interface StretchZone {
  readonly high: number;
  readonly centre: number;
  readonly low: number;
  /** What does not move: everything above `high`, the centre, or everything below `low`. */
  readonly still: 'high' | 'centre' | 'low';
}

/**
 * How far every height moves (mm, y down) when the zone gets longer by `amount` (shorter where it is negative): the distance from `high`
 * to `low` changes by exactly that, shared by the two sides of the centre in proportion to their lengths. The zone must stay longer
 * than nothing.
 */
export const stretchBetween = ({ high, centre, low, still }: StretchZone, amount: number): AmountUpright => {
  const ratio = (low - high + amount) / (low - high);
  const upwards = (amount * (centre - high)) / (low - high);
  const above = { high: 0, centre: 0 - upwards, low: 0 - amount }[still];
  const below = { high: amount, centre: amount - upwards, low: 0 }[still];
  const narrowing = (y: number): number => {
    const share = (y - centre) / (y < centre ? centre - high : low - centre);
    return ratio / (1 + (ratio - 1) * share * share);
  };
  return {
    value: (y) => {
      if (y <= high) return above;
      if (y >= low) return below;
      return above + upwards + (y - centre) * (ratio * Math.sqrt(narrowing(y)) - 1);
    },
    slope: (y) => (y <= high || y >= low ? 0 : narrowing(y) ** (3 / 2) - 1),
    breaks: still === 'centre' ? [high, centre, low] : [high, low],
  };
};
