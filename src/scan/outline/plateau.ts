/**
 * The light of which the share `rank` (0 to 1) of the samples from `from` up to, not including, `to` is darker; nothing of an empty stretch.
 * `scratch` holds the samples while they are sorted.
 */
export const plateau = (
  light: Float64Array,
  from: number,
  to: number,
  rank: number,
  scratch: Float64Array,
): number | undefined => {
  const first = Math.max(0, from);
  const count = Math.min(light.length, to) - first;
  if (count <= 0) return undefined;
  for (let k = 0; k < count; k++) {
    const value = light[first + k]!;
    let place = k;
    for (; place > 0 && scratch[place - 1]! > value; place--) scratch[place] = scratch[place - 1]!;
    scratch[place] = value;
  }
  return scratch[Math.min(count - 1, Math.floor(rank * count))]!;
};
