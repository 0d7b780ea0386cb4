import type { Matrix } from '../../geometry/matrix.ts';
import { LIGHT, type Picture } from '../picture.ts';

/** The four weights of cubic interpolation (Keys, 1981, a = -1/2), for 256 places between two pixels. */
const PHASES = 256;
const WEIGHTS = new Float64Array(4 * (PHASES + 1));
for (let k = 0; k <= PHASES; k++) {
  const s = k / PHASES;
  WEIGHTS.set(
    [((2 - s) * s - 1) * s, (3 * s - 5) * s * s + 2, ((4 - 3 * s) * s + 1) * s, (s - 1) * s * s].map((w) => w / 2),
    4 * k,
  );
}

/** Where the four pixels round a place differ by no more than this there is paper and noise, and proportion does as well as cubics. */
const FLAT = 10;

/**
 * Reads the light for the pixels `from` up to `to` of row y of another picture into `into`, with `over` leading from its places to
 * this picture's. All places must lie at least 2 pixels inside. Places are taken to a 512th of a pixel.
 */
export const resampleRow = (
  { width, grey }: Picture,
  over: Matrix,
  y: number,
  from: number,
  to: number,
  into: Float32Array,
): void => {
  const { a, b } = over;
  const u0 = over.c * (y + 0.5) + over.e + a / 2 - 0.5;
  const v0 = over.d * (y + 0.5) + over.f + b / 2 - 0.5;
  for (let i = from; i < to; i++) {
    const u = u0 + a * i;
    const v = v0 + b * i;
    const iu = u | 0;
    const iv = v | 0;
    const s = ((u - iu) * PHASES + 0.5) | 0;
    const t = ((v - iv) * PHASES + 0.5) | 0;
    const p = (iv - 1) * width + iu - 1;
    const near = grey[p + width + 1]!;
    if (
      Math.abs(grey[p + width + 2]! - near) <= FLAT &&
      Math.abs(grey[p + 2 * width + 1]! - near) <= FLAT &&
      Math.abs(grey[p + 2 * width + 2]! - near) <= FLAT
    ) {
      const above = LIGHT[near]! + (LIGHT[grey[p + width + 2]!]! - LIGHT[near]!) * (s / PHASES);
      const left = LIGHT[grey[p + 2 * width + 1]!]!;
      const under = left + (LIGHT[grey[p + 2 * width + 2]!]! - left) * (s / PHASES);
      into[i] = above + (under - above) * (t / PHASES);
      continue;
    }
    const q = p + width;
    const r = q + width;
    const z = r + width;
    const w0 = WEIGHTS[4 * s]!;
    const w1 = WEIGHTS[4 * s + 1]!;
    const w2 = WEIGHTS[4 * s + 2]!;
    const w3 = WEIGHTS[4 * s + 3]!;
    into[i] =
      WEIGHTS[4 * t]! *
        (w0 * LIGHT[grey[p]!]! + w1 * LIGHT[grey[p + 1]!]! + w2 * LIGHT[grey[p + 2]!]! + w3 * LIGHT[grey[p + 3]!]!) +
      WEIGHTS[4 * t + 1]! *
        (w0 * LIGHT[grey[q]!]! + w1 * LIGHT[grey[q + 1]!]! + w2 * LIGHT[grey[q + 2]!]! + w3 * LIGHT[grey[q + 3]!]!) +
      WEIGHTS[4 * t + 2]! *
        (w0 * LIGHT[grey[r]!]! + w1 * LIGHT[grey[r + 1]!]! + w2 * LIGHT[grey[r + 2]!]! + w3 * LIGHT[grey[r + 3]!]!) +
      WEIGHTS[4 * t + 3]! *
        (w0 * LIGHT[grey[z]!]! + w1 * LIGHT[grey[z + 1]!]! + w2 * LIGHT[grey[z + 2]!]! + w3 * LIGHT[grey[z + 3]!]!);
  }
};
