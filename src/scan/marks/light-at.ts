import { LIGHT, type Picture } from '../picture.ts';

/** Light between pixel middles, bilinear; beyond the picture as at its edge. */
export const lightAt = ({ grey, width, height }: Picture, x: number, y: number): number => {
  const u = Math.min(width - 1, Math.max(0, x - 0.5));
  const v = Math.min(height - 1, Math.max(0, y - 0.5));
  const [i, j] = [Math.min(width - 2, Math.floor(u)), Math.min(height - 2, Math.floor(v))];
  if (i < 0 || j < 0) return LIGHT[grey[0]!]!;
  const [s, t] = [u - i, v - j];
  const p = j * width + i;
  const upper = LIGHT[grey[p]!]! * (1 - s) + LIGHT[grey[p + 1]!]! * s;
  const lower = LIGHT[grey[p + width]!]! * (1 - s) + LIGHT[grey[p + width + 1]!]! * s;
  return upper * (1 - t) + lower * t;
};
