import { between } from './point.ts';
import { cubic, type Cubic } from './segment.ts';

/**
 * The polynomial of a cubic with its end at `t`, which may lie past 1: there the curve goes on along itself, as it was before it was
 * cut off. De Casteljau's construction, which holds for any `t`.
 */
export const growCubic = (s: Cubic, t: number): Cubic => {
  const a = between(s.start, s.startHandle, t);
  const b = between(s.startHandle, s.endHandle, t);
  const c = between(s.endHandle, s.end, t);
  const ab = between(a, b, t);
  const bc = between(b, c, t);
  return cubic(s.start, a, ab, between(ab, bc, t));
};
