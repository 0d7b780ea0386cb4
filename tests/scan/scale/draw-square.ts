/**
 * A printed square in a picture, exact by closed form: light is the product of two blurred strips in the square's own axes, since a
 * round Gaussian blur of a rectangle parts into its axes whatever way it is turned.
 */
import { inverse, type Matrix } from '../../../src/geometry/matrix.ts';
import type { Picture } from '../../../src/scan/picture.ts';

export interface SquareDrawn {
  /** From millimetres, the square's middle being (0, 0), to the picture. */
  readonly fromMm: Matrix;
  readonly side: number;
  readonly line?: number;
  /** Standard deviation of the blur, in millimetres. */
  readonly blur: number;
  readonly ink?: number;
  readonly paper?: number;
}

/** Light at a place, 0 to 1. */
export type Light = (x: number, y: number) => number;

/** The integral of the normal distribution (Abramowitz and Stegun 7.1.26, error under 1.5e-7). */
const below = (z: number): number => {
  const x = Math.abs(z) / Math.SQRT2;
  const t = 1 / (1 + 0.3275911 * x);
  const erf =
    1 -
    ((((1.061405429 * t - 1.453152027) * t + 1.421413741) * t - 0.284496736) * t + 0.254829592) * t * Math.exp(-x * x);
  return z < 0 ? (1 - erf) / 2 : (1 + erf) / 2;
};

/** A ring of ink, its middle on the square's sides; filled where no width of line is given. */
export const squareLight = ({ fromMm, side, line, blur, ink = 0.06, paper = 0.85 }: SquareDrawn): Light => {
  const back = inverse(fromMm);
  const strip = (u: number, half: number): number => below((u + half) / blur) - below((u - half) / blur);
  return (x, y) => {
    const u = back.a * x + back.c * y + back.e;
    const v = back.b * x + back.d * y + back.f;
    if (Math.max(Math.abs(u), Math.abs(v)) > side / 2 + (line ?? 0) + 6 * blur) return paper;
    if (line !== undefined && Math.max(Math.abs(u), Math.abs(v)) < side / 2 - line - 6 * blur) return paper;
    const outer = (side + (line ?? 0)) / 2;
    const solid = strip(u, outer) * strip(v, outer);
    const hole = line === undefined ? 0 : strip(u, (side - line) / 2) * strip(v, (side - line) / 2);
    return paper + (ink - paper) * (solid - hole);
  };
};

/** The grey value of a light by the curve of IEC 61966-2-1, not rounded. */
const greyOf = (light: number): number =>
  255 * (light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055);

/** A seeded generator (mulberry32), evenly from 0 to 1. */
export const chance = (seed: number): (() => number) => {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
};

/** Normally distributed (Box and Muller). */
export const normal = (random: () => number): number =>
  Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

/** The picture of a light at the middles of its pixels, with noise in grey values; `bilevel` turns it to black and white at half light. */
export const drawPicture = (
  width: number,
  height: number,
  light: Light,
  { noise = 0, seed = 1, bilevel }: { noise?: number; seed?: number; bilevel?: number } = {},
): Picture => {
  const random = chance(seed);
  const grey = new Uint8Array(width * height);
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const value = greyOf(light(x + 0.5, y + 0.5)) + (noise === 0 ? 0 : noise * normal(random));
      const seen = bilevel === undefined ? value : value > greyOf(bilevel) ? 255 : 0;
      grey[y * width + x] = Math.min(255, Math.max(0, Math.round(seen)));
    }
  }
  return { width, height, grey };
};
