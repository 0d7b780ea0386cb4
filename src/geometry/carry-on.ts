import { segmentLength } from './arc-length.ts';
import type { Path } from './path.ts';
import { between, type Point } from './point.ts';
import { cubic, type Cubic } from './segment.ts';

/** The farthest that a curve is carried on, in lengths of itself: a cubic soon swings away past its own end. */
const FARTHEST = 0.5;

/** The polynomial of a cubic with its end at `t`, which may be past 1: de Casteljau's construction holds there too. */
const endingAt = (s: Cubic, t: number): Cubic => {
  const a = between(s.start, s.startHandle, t);
  const b: Point = between(s.startHandle, s.endHandle, t);
  const c = between(s.endHandle, s.end, t);
  const ab = between(a, b, t);
  const bc = between(b, c, t);
  return cubic(s.start, a, ab, between(ab, bc, t));
};

/**
 * The path carried on past its end by about `by` millimetres along its own last curve, so that a curve which was cut off grows back as
 * it was; at most half as long again as that curve. A path that ends in a straight line is given back as it is: its tangent says all.
 */
export const carryOn = (path: Path, by: number): Path => {
  const last = path.segments.at(-1)!;
  if (last.kind === 'line') return path;
  const part = Math.min(FARTHEST, by / segmentLength(last));
  return { segments: [...path.segments.slice(0, -1), endingAt(last, 1 + part)] };
};
