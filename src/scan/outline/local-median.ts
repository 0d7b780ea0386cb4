/** Stations to a block, and neighbouring blocks on either side that its median is taken over. */
const BLOCK = 32;

/** The value that the share `rank` of the values is below, NaN left out; NaN where there is none. */
export const quantileOf = (values: Float64Array | number[], rank: number): number => {
  const sorted = Float64Array.from(values)
    .filter((value) => !Number.isNaN(value))
    .toSorted();
  return sorted.length === 0 ? NaN : sorted[Math.floor(rank * sorted.length)]!;
};

export const medianOf = (values: Float64Array | number[]): number => quantileOf(values, 0.5);

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
