import type { Point } from './point.ts';

/** A displacement or direction: millimetres, y downwards. */
export interface Vector {
  readonly dx: number;
  readonly dy: number;
}

export const vector = (dx: number, dy: number): Vector => ({ dx, dy });

/** From `a` to `b`. */
export const vectorTo = (a: Point, b: Point): Vector => ({ dx: b.x - a.x, dy: b.y - a.y });

/** By a plain root, as `distance`. */
export const magnitude = (v: Vector): number => Math.sqrt(v.dx * v.dx + v.dy * v.dy);

export const scaled = (v: Vector, factor: number): Vector => ({ dx: v.dx * factor, dy: v.dy * factor });

export const plus = (a: Vector, b: Vector): Vector => ({ dx: a.dx + b.dx, dy: a.dy + b.dy });

export const dot = (a: Vector, b: Vector): number => a.dx * b.dx + a.dy * b.dy;

/** Positive where `b` turns clockwise from `a` as seen on paper (y down). */
export const cross = (a: Vector, b: Vector): number => a.dx * b.dy - a.dy * b.dx;

/** The same direction with length 1; the zero vector stays zero. */
export const unit = (v: Vector): Vector => {
  const length = magnitude(v);
  return length === 0 ? v : { dx: v.dx / length, dy: v.dy / length };
};

/** A quarter turn to the left as seen on paper: outwards for an outline that runs clockwise. */
export const leftNormal = (v: Vector): Vector => ({ dx: v.dy, dy: -v.dx });

/** The turn from `a` to `b` in radians, in (-pi, pi]; positive is clockwise on paper. */
export const turn = (a: Vector, b: Vector): number => Math.atan2(cross(a, b), dot(a, b));
