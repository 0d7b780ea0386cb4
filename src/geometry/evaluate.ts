/** Values on one segment: exact at both ends, cheap enough for inner loops. */
import { between, distance, type Point } from './point.ts';
import type { Segment } from './segment.ts';
import { STILL } from './tolerance.ts';
import { cross, magnitude, plus, scaled, unit, vectorTo, type Vector } from './vector.ts';

/** The point at `t`; exactly the segment's own end points at 0 and 1. */
export const pointOn = (segment: Segment, t: number): Point => {
  if (t === 0) return segment.start;
  if (t === 1) return segment.end;
  if (segment.kind === 'line') return between(segment.start, segment.end, t);
  const { start, startHandle, endHandle, end } = segment;
  const u = 1 - t;
  const a = u * u * u;
  const b = 3 * u * u * t;
  const c = 3 * u * t * t;
  const d = t * t * t;
  return {
    x: a * start.x + b * startHandle.x + c * endHandle.x + d * end.x,
    y: a * start.y + b * startHandle.y + c * endHandle.y + d * end.y,
  };
};

/** Millimetres per unit of `t`; zero where a handle of no length makes a cubic stand still. */
export const derivativeOn = (segment: Segment, t: number): Vector => {
  const { start, end } = segment;
  if (segment.kind === 'line') return vectorTo(start, end);
  const { startHandle, endHandle } = segment;
  const u = 1 - t;
  const a = 3 * u * u;
  const b = 6 * u * t;
  const c = 3 * t * t;
  return {
    dx: a * (startHandle.x - start.x) + b * (endHandle.x - startHandle.x) + c * (end.x - endHandle.x),
    dy: a * (startHandle.y - start.y) + b * (endHandle.y - startHandle.y) + c * (end.y - endHandle.y),
  };
};

/** The change of the derivative per unit of `t`; zero on a line. */
export const secondDerivativeOn = (segment: Segment, t: number): Vector => {
  if (segment.kind === 'line') return { dx: 0, dy: 0 };
  const { start, startHandle, endHandle, end } = segment;
  const a = 6 * (1 - t);
  const b = 6 * t;
  return {
    dx: a * (start.x - 2 * startHandle.x + endHandle.x) + b * (startHandle.x - 2 * endHandle.x + end.x),
    dy: a * (start.y - 2 * startHandle.y + endHandle.y) + b * (startHandle.y - 2 * endHandle.y + end.y),
  };
};

const sizeOf = (segment: Segment): number => {
  const { start, end } = segment;
  if (segment.kind === 'line') return distance(start, end);
  return Math.max(distance(start, segment.startHandle), distance(start, segment.endHandle), distance(start, end));
};

/**
 * The unit direction of travel at `t`. Where a cubic stands still (a handle of no length, a cusp) it is the direction in which
 * it sets off again, or at the end the direction in which it arrives. Zero only for a segment that is one point.
 */
export const tangentOn = (segment: Segment, t: number): Vector => {
  const first = derivativeOn(segment, t);
  const size = sizeOf(segment);
  if (segment.kind === 'line' || magnitude(first) > STILL * size) return unit(first);
  const second = secondDerivativeOn(segment, t);
  if (magnitude(second) > STILL * size) return unit(scaled(second, t >= 1 ? -1 : 1));
  const { start, startHandle, endHandle, end } = segment;
  const third = plus(vectorTo(start, end), scaled(vectorTo(startHandle, endHandle), -3));
  return unit(third);
};

/** Signed curvature in 1/mm, positive where the path turns clockwise on paper; 0 on a line and where a cubic stands still. */
export const curvatureOn = (segment: Segment, t: number): number => {
  if (segment.kind === 'line') return 0;
  const first = derivativeOn(segment, t);
  const speed = magnitude(first);
  if (speed <= STILL * sizeOf(segment)) return 0;
  return cross(first, secondDerivativeOn(segment, t)) / (speed * speed * speed);
};
