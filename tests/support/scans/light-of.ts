/** The light of a grey value that need not be whole, by the curve of IEC 61966-2-1. */
export const lightOf = (grey: number): number => {
  const v = grey / 255;
  return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
};

/** The grey value of a light, not rounded. */
export const greyOf = (light: number): number =>
  255 * (light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055);
