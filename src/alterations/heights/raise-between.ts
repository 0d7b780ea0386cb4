import type { AmountUpright } from './shift-upright.ts';
import { stretchBetween } from './stretch-between.ts';

/** The heights on one panel, y down: what holds above, the levels that move together, what holds below. */
export interface RaiseZone {
  readonly above: number;
  /** From the highest down. */
  readonly levels: readonly number[];
  readonly below: number;
}

const middle = (high: number, low: number): number => (high + low) / 2;

/**
 * How far every height moves (mm, y down) when the levels of the zone move by `amount`: exactly so at them and between them, less and
 * less towards the holds, nothing beyond. What the part above the levels gets longer by, the part below gets shorter by, so the opposite
 * amount is the exact inverse. The levels must stay between the holds.
 */
export const raiseBetween = ({ above, levels, below }: RaiseZone, amount: number): AmountUpright => {
  const [first, last] = [levels[0]!, levels.at(-1)!];
  const over = stretchBetween({ high: above, centre: middle(above, first), low: first, still: 'high' }, amount);
  const under = stretchBetween({ high: last, centre: middle(last, below), low: below, still: 'low' }, 0 - amount);
  const partAt = (y: number): AmountUpright | undefined => (y < first ? over : y > last ? under : undefined);
  return {
    value: (y) => partAt(y)?.value(y) ?? amount,
    slope: (y) => partAt(y)?.slope(y) ?? 0,
    breaks: [above, ...levels, below],
  };
};
