import { segmentLength } from './arc-length.ts';
import { growCubic } from './grow-cubic.ts';
import type { Path } from './path.ts';

/** The farthest that a curve is carried on, in lengths of itself: a cubic soon swings away past its own end. */
const FARTHEST = 0.5;

/**
 * The path carried on past its end by about `by` millimetres along its own last curve, so that a curve which was cut off grows back as
 * it was; at most half as long again as that curve. A path that ends in a straight line is given back as it is: its tangent says all.
 */
export const carryOn = (path: Path, by: number): Path => {
  const last = path.segments.at(-1)!;
  if (last.kind === 'line') return path;
  const part = Math.min(FARTHEST, by / segmentLength(last));
  return { segments: [...path.segments.slice(0, -1), growCubic(last, 1 + part)] };
};
