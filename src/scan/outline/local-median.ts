import { medianOf } from '../quantile-of.ts';

/** Stations to a block, and neighbouring blocks on either side that its median is taken over. */
const BLOCK = 32;

/**
 * What is usual near each place of a ring of values, as the median of its block of 32 and the blocks beside it: 3 mm and 3 mm to both
 * sides, so that what a tick, a notch or a pencil stroke does for a millimetre does not count. NaN stands for no value, and where
 * there is none near.
 */
export const localMedian = (values: Float64Array): Float64Array => {
  const { length } = values;
  const medians = new Float64Array(length);
  for (let first = 0; first < length; first += BLOCK) {
    const near: number[] = [];
    for (let k = first - BLOCK; k < first + 2 * BLOCK; k++) near.push(values[((k % length) + length) % length]!);
    medians.fill(medianOf(near), first, first + BLOCK);
  }
  return medians;
};
