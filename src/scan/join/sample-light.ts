import { LIGHT, type Picture } from '../picture.ts';

/** Light at a place with its slopes along x and y, per pixel. */
export interface LightSample {
  light: number;
  dx: number;
  dy: number;
}

/**
 * Reads the light between pixels by cubic interpolation (Keys, 1981, with a = -1/2), which keeps straight slopes straight, so that
 * edges stay where they are. The place must lie at least 2 pixels inside the picture. Writes into `into`, for it is called by the million.
 */
export const sampleLight = ({ width, grey }: Picture, x: number, y: number, into: LightSample): void => {
  const i = Math.floor(x - 0.5);
  const j = Math.floor(y - 0.5);
  const s = x - 0.5 - i;
  const t = y - 0.5 - j;
  const a0 = ((2 - s) * s - 1) * s * 0.5;
  const a1 = ((3 * s - 5) * s * s + 2) * 0.5;
  const a2 = ((4 - 3 * s) * s + 1) * s * 0.5;
  const a3 = (s - 1) * s * s * 0.5;
  const b0 = ((4 - 3 * s) * s - 1) * 0.5;
  const b1 = (9 * s - 10) * s * 0.5;
  const b2 = ((8 - 9 * s) * s + 1) * 0.5;
  const b3 = (3 * s - 2) * s * 0.5;
  let at = (j - 1) * width + i - 1;
  const p0 = LIGHT[grey[at]!]!;
  const p1 = LIGHT[grey[at + 1]!]!;
  const p2 = LIGHT[grey[at + 2]!]!;
  const p3 = LIGHT[grey[at + 3]!]!;
  at += width;
  const q0 = LIGHT[grey[at]!]!;
  const q1 = LIGHT[grey[at + 1]!]!;
  const q2 = LIGHT[grey[at + 2]!]!;
  const q3 = LIGHT[grey[at + 3]!]!;
  at += width;
  const r0 = LIGHT[grey[at]!]!;
  const r1 = LIGHT[grey[at + 1]!]!;
  const r2 = LIGHT[grey[at + 2]!]!;
  const r3 = LIGHT[grey[at + 3]!]!;
  at += width;
  const s0 = LIGHT[grey[at]!]!;
  const s1 = LIGHT[grey[at + 1]!]!;
  const s2 = LIGHT[grey[at + 2]!]!;
  const s3 = LIGHT[grey[at + 3]!]!;
  const p = a0 * p0 + a1 * p1 + a2 * p2 + a3 * p3;
  const q = a0 * q0 + a1 * q1 + a2 * q2 + a3 * q3;
  const r = a0 * r0 + a1 * r1 + a2 * r2 + a3 * r3;
  const u = a0 * s0 + a1 * s1 + a2 * s2 + a3 * s3;
  const c0 = ((2 - t) * t - 1) * t * 0.5;
  const c1 = ((3 * t - 5) * t * t + 2) * 0.5;
  const c2 = ((4 - 3 * t) * t + 1) * t * 0.5;
  const c3 = (t - 1) * t * t * 0.5;
  into.light = c0 * p + c1 * q + c2 * r + c3 * u;
  into.dx =
    c0 * (b0 * p0 + b1 * p1 + b2 * p2 + b3 * p3) +
    c1 * (b0 * q0 + b1 * q1 + b2 * q2 + b3 * q3) +
    c2 * (b0 * r0 + b1 * r1 + b2 * r2 + b3 * r3) +
    c3 * (b0 * s0 + b1 * s1 + b2 * s2 + b3 * s3);
  const d0 = ((4 - 3 * t) * t - 1) * 0.5;
  const d1 = (9 * t - 10) * t * 0.5;
  const d2 = ((8 - 9 * t) * t + 1) * 0.5;
  const d3 = (3 * t - 2) * t * 0.5;
  into.dy = d0 * p + d1 * q + d2 * r + d3 * u;
};
