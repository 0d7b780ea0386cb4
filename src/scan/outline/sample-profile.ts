import { LIGHT, type Picture } from '../picture.ts';

/** Light across an outline: sample number `middle` lies at the place asked for, the next ones `step` pixels apart along the normal. */
export interface Profile {
  readonly light: Float64Array;
  readonly middle: number;
  readonly step: number;
}

/** Samples this near, in millimetres, show all that a scan does; but two a pixel and one a pixel are the limits. */
const STEP = 0.042;

/** An empty profile, `half` pixels to both sides. */
export const emptyProfile = (half: number, pxPerMm: number): Profile => {
  const step = Math.min(1, Math.max(0.5, STEP * pxPerMm));
  const middle = Math.ceil(half / step);
  return { light: new Float64Array(2 * middle + 1), middle, step };
};

/** Fills a profile with the light along the unit normal through (x, y). */
export type Sampler = (profile: Profile, x: number, y: number, nx: number, ny: number) => void;

/**
 * Each place weighs the light of the pixels round it by a cubic B-spline: that blurs the same way to both sides, and an edge stays where
 * it is to 0.015 pixels wherever in a pixel it falls, where interpolation moves it by up to 0.04. Beyond its rim the picture goes on as
 * it is there.
 */
export const profileSampler = ({ width, height, grey }: Picture): Sampler => {
  const table = LIGHT;
  const atRim = (i: number, j: number): number =>
    table[grey[Math.min(Math.max(j, 0), height - 1) * width + Math.min(Math.max(i, 0), width - 1)]!]!;

  return ({ light, middle, step }, x, y, nx, ny) => {
    for (let k = 0; k < light.length; k++) {
      const px = x - 0.5 + (k - middle) * step * nx;
      const py = y - 0.5 + (k - middle) * step * ny;
      const i = Math.floor(px);
      const j = Math.floor(py);
      const t = px - i;
      const u = 1 - t;
      const a0 = u * u * u;
      const a1 = 4 + 3 * t * t * (t - 2);
      const a2 = 4 + 3 * u * u * (u - 2);
      const a3 = t * t * t;
      const v = py - j;
      const w = 1 - v;
      const b0 = w * w * w;
      const b1 = 4 + 3 * v * v * (v - 2);
      const b2 = 4 + 3 * w * w * (w - 2);
      const b3 = v * v * v;
      let sum = 0;
      if (i > 0 && j > 0 && i + 2 < width && j + 2 < height) {
        const p = (j - 1) * width + i - 1;
        const q = p + width;
        const r = q + width;
        const s = r + width;
        sum =
          b0 *
            (a0 * table[grey[p]!]! +
              a1 * table[grey[p + 1]!]! +
              a2 * table[grey[p + 2]!]! +
              a3 * table[grey[p + 3]!]!) +
          b1 *
            (a0 * table[grey[q]!]! +
              a1 * table[grey[q + 1]!]! +
              a2 * table[grey[q + 2]!]! +
              a3 * table[grey[q + 3]!]!) +
          b2 *
            (a0 * table[grey[r]!]! +
              a1 * table[grey[r + 1]!]! +
              a2 * table[grey[r + 2]!]! +
              a3 * table[grey[r + 3]!]!) +
          b3 *
            (a0 * table[grey[s]!]! + a1 * table[grey[s + 1]!]! + a2 * table[grey[s + 2]!]! + a3 * table[grey[s + 3]!]!);
      } else {
        for (let b = 0; b < 4; b++) {
          const row = b === 0 ? b0 : b === 1 ? b1 : b === 2 ? b2 : b3;
          const line = j + b - 1;
          sum +=
            row * (a0 * atRim(i - 1, line) + a1 * atRim(i, line) + a2 * atRim(i + 1, line) + a3 * atRim(i + 2, line));
        }
      }
      light[k] = sum / 36;
    }
  };
};
