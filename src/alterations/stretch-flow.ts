/**
 * Lengthening or shortening between two heights, as a flow away from a centre or towards it: the speed grows from 0 at the centre as a
 * sine and is 1 from each height on, so that what lies beyond moves as one. A flow cannot fold, and since the speeds are the same for the
 * way there and the way back, the opposite amount is the exact inverse.
 */

import { SAME_POINT } from '../geometry/tolerance.ts';
import type { AmountUpright } from './shift-upright.ts';

/** The heights on one panel, y down, and the one between them that stays in its place among what moves. */
export interface StretchZone {
  readonly high: number;
  readonly centre: number;
  readonly low: number;
  /** What does not move: everything above `high`, the centre, or everything below `low`. */
  readonly still: 'high' | 'centre' | 'low';
}

interface HalfStretch {
  /** How far a place goes outwards, by its distance from the centre. */
  readonly value: (distance: number) => number;
  readonly slope: (distance: number) => number;
}

/** From the centre, 0, to `reach`, which moves outwards by `amount`, as does all beyond. */
const halfStretch = (reach: number, amount: number): HalfStretch => {
  const full = Math.min(reach, reach + amount);
  const quarter = (4 * full) / Math.PI;
  const speed = (u: number): number => (u < full ? Math.sin((2 * u) / quarter) : 1);
  const place = (u: number): number => {
    const time = (u < full ? full + (quarter / 2) * Math.log(Math.tan(u / quarter)) : u) + amount;
    return time < full ? quarter * Math.atan(Math.exp((2 * (time - full)) / quarter)) : time;
  };
  return {
    value: (u) => (u >= reach ? amount : place(u) - u),
    slope: (u) => {
      if (u >= reach) return 0;
      const from = Math.max(u, SAME_POINT);
      return speed(place(from)) / speed(from) - 1;
    },
  };
};

/**
 * How far every height moves (mm, y down) when the zone gets longer by `amount` (shorter where it is negative): the distance from `high`
 * to `low` changes by exactly that, shared by the two sides of the centre in proportion to their lengths; no kink at either height nor
 * at the centre. The zone must stay longer than nothing.
 */
export const stretchFlow = ({ high, centre, low, still }: StretchZone, amount: number): AmountUpright => {
  const upwards = (amount * (centre - high)) / (low - high);
  const [up, down] = [halfStretch(centre - high, upwards), halfStretch(low - centre, amount - upwards)];
  const shift = { high: upwards, centre: 0, low: upwards - amount }[still];
  return {
    value: (y) => (y < centre ? shift - up.value(centre - y) : shift + down.value(y - centre)),
    slope: (y) => (y < centre ? up.slope(centre - y) : down.slope(y - centre)),
    breaks: still === 'centre' ? [high, centre, low] : [high, low],
  };
};
