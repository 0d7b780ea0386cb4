/**
 * Moving levels up or down between two heights that hold still, as a flow: a fixed speed at every height, 1 where the levels travel,
 * falling to 0 at both holds as a squared sine, followed for as long as the levels need. A flow cannot fold, no point moves farther than
 * the levels do, and since the speeds are the same for the way there and the way back, the opposite amount is the exact inverse.
 */

import { SAME_POINT } from '../geometry/tolerance.ts';
import type { AmountUpright } from './shift-upright.ts';

/** The heights on one panel, y down: what holds above, the levels that move together, what holds below. */
export interface RaiseZone {
  readonly above: number;
  /** From the highest down. */
  readonly levels: readonly number[];
  readonly below: number;
}

/** A stretch of speed sin^2, from a hold to where the speed is 1; `way` is 1 where it rises with y, -1 where it falls. */
interface Ramp {
  readonly hold: number;
  readonly full: number;
  readonly way: 1 | -1;
}

const angle = ({ hold, full }: Ramp, y: number): number => ((y - hold) / (full - hold)) * (Math.PI / 2);

/** A height told by the time at which the flow passes it: 1 mm takes 1 where the speed is 1, and the hold is never reached. */
const timeOn = (ramp: Ramp, y: number): number =>
  ramp.full - ((ramp.full - ramp.hold) * (2 / Math.PI)) / Math.tan(angle(ramp, y));

const placeOn = ({ hold, full, way }: Ramp, time: number): number => {
  const reach = Math.abs(full - hold) * (2 / Math.PI);
  return hold + way * reach * Math.atan2(reach, way * (full - time));
};

/**
 * How far every height moves (mm, y down) when the levels of the zone move by `amount`: exactly so at them and between them, less
 * and less towards the holds, with no kink there, nothing beyond. The levels must stay between the holds.
 */
export const raiseFlow = ({ above, levels, below }: RaiseZone, amount: number): AmountUpright => {
  const [first, last] = [levels[0]!, levels.at(-1)!];
  const [high, low] = [Math.min(first, first + amount), Math.max(last, last + amount)];
  const upper: Ramp = { hold: above, full: high, way: 1 };
  const lower: Ramp = { hold: below, full: low, way: -1 };
  const rampAt = (height: number): Ramp | undefined => (height < high ? upper : height > low ? lower : undefined);
  const holds = (y: number): boolean => y <= above || y >= below;
  const speed = (y: number): number => {
    const ramp = rampAt(y);
    return ramp === undefined ? 1 : Math.sin(angle(ramp, y)) ** 2;
  };
  const place = (y: number): number => {
    const from = rampAt(y);
    const time = (from === undefined ? y : timeOn(from, y)) + amount;
    const to = rampAt(time);
    return to === undefined ? time : placeOn(to, time);
  };
  return {
    value: (y) => {
      if (holds(y)) return 0;
      return rampAt(y) === undefined && rampAt(y + amount) === undefined ? amount : place(y) - y;
    },
    slope: (y) => (y < above + SAME_POINT || y > below - SAME_POINT ? 0 : speed(place(y)) / speed(y) - 1),
    breaks: [above, ...levels, below],
  };
};
