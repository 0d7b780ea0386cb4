import type { Picture } from '../../../src/scan/picture.ts';

/** The share of a normal distribution below `z` (Abramowitz and Stegun 7.1.26 carried further by its continued series). */
export const normalShare = (z: number): number => {
  if (z < -7) return 0;
  if (z > 7) return 1;
  // Marsaglia's series: exact to the last digits for |z| under 7.
  let sum = z;
  let term = z;
  for (let n = 3; Math.abs(term) > 1e-17; n += 2) {
    term *= (z * z) / n;
    sum += term;
  }
  return 0.5 + (sum * Math.exp((-z * z) / 2)) / Math.sqrt(2 * Math.PI);
};

const coded = (light: number): number => {
  const v = Math.min(1, Math.max(0, light));
  return Math.round(255 * (v <= 0.0031308 ? 12.92 * v : 1.055 * v ** (1 / 2.4) - 0.055));
};

/** A grey picture of a light given at each place, the mean over 3 by 3 places in each pixel. */
export const pictureOf = (width: number, height: number, light: (x: number, y: number) => number): Picture => {
  const grey = new Uint8Array(width * height);
  for (let j = 0; j < height; j++) {
    for (let i = 0; i < width; i++) {
      let sum = 0;
      for (const b of [1, 3, 5]) for (const a of [1, 3, 5]) sum += light(i + a / 6, j + b / 6);
      grey[j * width + i] = coded(sum / 9);
    }
  }
  return { width, height, grey };
};
