/**
 * One segment of the path that is offset, as plain polynomials: the hot loops of the offset run on these numbers.
 *
 * A parallel is `S(t) + d n(t)` with `n` the left normal; its velocity is `(1 + d k) S'(t)`, so it turns back
 * on itself where `1 + d k < 0`, and has a cusp where that is zero.
 */

import { magnitude, unit, vectorTo, type Vector } from './vector.ts';
import type { Point } from './point.ts';
import type { Segment } from './segment.ts';
import { PARAMETER_SETTLED, SAME_POINT } from './tolerance.ts';

export interface Source {
  readonly segment: Segment;
  /** The run it belongs to, counted from 0. */
  readonly run: number;
  /** Signed: positive is to the left of the direction of travel. */
  readonly distance: number;
  readonly straight: boolean;
  /** `x(t) = ((x3 t + x2) t + x1) t + x0`, likewise y. */
  readonly x0: number;
  readonly x1: number;
  readonly x2: number;
  readonly x3: number;
  readonly y0: number;
  readonly y1: number;
  readonly y2: number;
  readonly y3: number;
  /** Unit tangents at the ends, right where a handle has no length too. */
  readonly startTangent: Vector;
  readonly endTangent: Vector;
}

/** The polynomials of a segment; undefined for one that is shorter than a point is wide. */
export const offsetSource = (segment: Segment, run: number, distance: number): Source | undefined => {
  const { start, end } = segment;
  const chord = vectorTo(start, end);
  if (segment.kind === 'line') {
    if (magnitude(chord) < SAME_POINT) return undefined;
    const direction = unit(chord);
    return {
      segment,
      run,
      distance,
      straight: true,
      x0: start.x,
      x1: chord.dx,
      x2: 0,
      x3: 0,
      y0: start.y,
      y1: chord.dy,
      y2: 0,
      y3: 0,
      startTangent: direction,
      endTangent: direction,
    };
  }
  const { startHandle, endHandle } = segment;
  const legs = [vectorTo(start, startHandle), vectorTo(start, endHandle), chord];
  const backLegs = [vectorTo(endHandle, end), vectorTo(startHandle, end), chord];
  const startTangent = legs.find((leg) => magnitude(leg) > SAME_POINT / 10);
  const endTangent = backLegs.find((leg) => magnitude(leg) > SAME_POINT / 10);
  const reach = Math.max(...legs.map(magnitude));
  if (reach < SAME_POINT || startTangent === undefined || endTangent === undefined) return undefined;
  return {
    segment,
    run,
    distance,
    straight: false,
    x0: start.x,
    x1: 3 * (startHandle.x - start.x),
    x2: 3 * (start.x - 2 * startHandle.x + endHandle.x),
    x3: end.x - start.x + 3 * (startHandle.x - endHandle.x),
    y0: start.y,
    y1: 3 * (startHandle.y - start.y),
    y2: 3 * (start.y - 2 * startHandle.y + endHandle.y),
    y3: end.y - start.y + 3 * (startHandle.y - endHandle.y),
    startTangent: unit(startTangent),
    endTangent: unit(endTangent),
  };
};

/** The unit tangent at `t`; the polynomial goes on beyond [0, 1]. */
export const tangentAt = (s: Source, t: number): Vector => {
  if (t === 0) return s.startTangent;
  if (t === 1) return s.endTangent;
  const dx = (3 * s.x3 * t + 2 * s.x2) * t + s.x1;
  const dy = (3 * s.y3 * t + 2 * s.y2) * t + s.y1;
  const speed = Math.hypot(dx, dy);
  if (speed < SAME_POINT) return t < 0.5 ? s.startTangent : s.endTangent;
  return { dx: dx / speed, dy: dy / speed };
};

/** The point of the true parallel at `t`. */
export const parallelAt = (s: Source, t: number): Point => {
  const tangent = tangentAt(s, t);
  return {
    x: ((s.x3 * t + s.x2) * t + s.x1) * t + s.x0 + s.distance * tangent.dy,
    y: ((s.y3 * t + s.y2) * t + s.y1) * t + s.y0 - s.distance * tangent.dx,
  };
};

/** `|S'|^3 (1 + d k)`: positive where the parallel runs forward, negative where it runs back, zero at its cusps. */
export const forwardness = (s: Source, t: number): number => {
  const dx = (3 * s.x3 * t + 2 * s.x2) * t + s.x1;
  const dy = (3 * s.y3 * t + 2 * s.y2) * t + s.y1;
  const ddx = 6 * s.x3 * t + 2 * s.x2;
  const ddy = 6 * s.y3 * t + 2 * s.y2;
  const square = dx * dx + dy * dy;
  return square * Math.sqrt(square) + s.distance * (dx * ddy - dy * ddx);
};

/** The curvature at `t`; positive is clockwise on paper. Next to a handle of no length it is very large. */
export const sourceCurvature = (s: Source, t: number): number => {
  const dx = (3 * s.x3 * t + 2 * s.x2) * t + s.x1;
  const dy = (3 * s.y3 * t + 2 * s.y2) * t + s.y1;
  const square = dx * dx + dy * dy;
  return (
    (dx * (6 * s.y3 * t + 2 * s.y2) - dy * (6 * s.x3 * t + 2 * s.x2)) / (square * Math.sqrt(square) + Number.MIN_VALUE)
  );
};

/**
 * The parameter near `guess` where the source is at right angles to the way to (x, y): Newton, at most 12 steps.
 * May lie outside [0, 1]; NaN where (x, y) is past the centre of curvature, so that there is no nearest point.
 */
export const footNear = (s: Source, x: number, y: number, guess: number): number => {
  let t = guess;
  for (let i = 0; i < 12; i += 1) {
    const px = ((s.x3 * t + s.x2) * t + s.x1) * t + s.x0 - x;
    const py = ((s.y3 * t + s.y2) * t + s.y1) * t + s.y0 - y;
    const dx = (3 * s.x3 * t + 2 * s.x2) * t + s.x1;
    const dy = (3 * s.y3 * t + 2 * s.y2) * t + s.y1;
    const slope = dx * dx + dy * dy + px * (6 * s.x3 * t + 2 * s.x2) + py * (6 * s.y3 * t + 2 * s.y2);
    if (!(slope > 0)) return Number.NaN;
    const step = (px * dx + py * dy) / slope;
    t -= step;
    if (step < PARAMETER_SETTLED && step > -PARAMETER_SETTLED) return t;
  }
  return t;
};
