import type { Point } from './point.ts';

/** A straight piece of a path. */
export interface Line {
  readonly kind: 'line';
  readonly start: Point;
  readonly end: Point;
}

/** A cubic Bezier piece of a path. */
export interface Cubic {
  readonly kind: 'cubic';
  readonly start: Point;
  readonly startHandle: Point;
  readonly endHandle: Point;
  readonly end: Point;
}

export type Segment = Line | Cubic;

export const line = (start: Point, end: Point): Line => ({ kind: 'line', start, end });

export const cubic = (start: Point, startHandle: Point, endHandle: Point, end: Point): Cubic => ({
  kind: 'cubic',
  start,
  startHandle,
  endHandle,
  end,
});
