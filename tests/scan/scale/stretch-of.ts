import type { Matrix } from '../../../src/geometry/matrix.ts';

/** By what share a map stretches or shrinks lengths at most, in any direction: its singular values, less 1. */
export const stretchOf = ({ a, b, c, d }: Matrix): number => {
  const [p, q, r] = [a * a + b * b, a * c + b * d, c * c + d * d];
  const half = Math.hypot((p - r) / 2, q);
  return Math.max(Math.abs(Math.sqrt((p + r) / 2 + half) - 1), Math.abs(Math.sqrt((p + r) / 2 - half) - 1));
};
