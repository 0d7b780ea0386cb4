/** The value that the share `rank` of the values is below, NaN left out; NaN where there is none. */
export const quantileOf = (values: ArrayLike<number>, rank: number): number => {
  const sorted = Float64Array.from(values)
    .filter((value) => !Number.isNaN(value))
    .toSorted();
  return sorted.length === 0 ? NaN : sorted[Math.floor(rank * sorted.length)]!;
};

export const medianOf = (values: ArrayLike<number>): number => quantileOf(values, 0.5);
