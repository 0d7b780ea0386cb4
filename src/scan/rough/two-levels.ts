const BINS = 256;

/** Two levels that a field of light falls into: the mean of each, and the level between them. */
export interface TwoLevels {
  readonly dark: number;
  readonly light: number;
  readonly between: number;
}

/** Parts the values so that the two groups differ most from each other (Otsu 1979), and puts the level half-way between their means. */
export const twoLevels = (values: Float32Array): TwoLevels => {
  const bins = new Float64Array(BINS);
  for (let at = 0; at < values.length; at += 1) bins[Math.min(BINS - 1, Math.floor(values[at]! * BINS))]! += 1;
  let total = 0;
  bins.forEach((count, bin) => {
    total += count * bin;
  });
  let [below, sumBelow, most, best] = [0, 0, -1, { dark: 0, light: 1 }];
  for (let bin = 0; bin < BINS - 1; bin += 1) {
    below += bins[bin]!;
    sumBelow += bins[bin]! * bin;
    const above = values.length - below;
    if (below === 0 || above === 0) continue;
    const [dark, light] = [sumBelow / below, (total - sumBelow) / above];
    const apart = below * above * (light - dark) ** 2;
    if (apart > most) [most, best] = [apart, { dark: (dark + 0.5) / BINS, light: (light + 0.5) / BINS }];
  }
  return { ...best, between: (best.dark + best.light) / 2 };
};
