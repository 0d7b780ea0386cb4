import type { Point } from '../../geometry/point.ts';
import { cross, magnitude, vectorTo, type Vector } from '../../geometry/vector.ts';

/** Four corners, clockwise on the page. */
export type Corners = readonly [Point, Point, Point, Point];

/** A straight line through a point; the direction need not have length 1. */
export interface StraightLine {
  readonly point: Point;
  readonly direction: Vector;
}

/** Sides that meet under less than 30 degrees enclose no square. */
const LEAST_SINE = 0.5;

/** The corners at which four sides meet, each side starting at its corner; undefined where two of them run almost parallel. */
export const meetSides = (
  sides: readonly [StraightLine, StraightLine, StraightLine, StraightLine],
): Corners | undefined => {
  const [a, b, c, d] = sides.map((side, i) => meet(sides[(i + 3) % 4]!, side));
  return a && b && c && d ? [a, b, c, d] : undefined;
};

const meet = (a: StraightLine, b: StraightLine): Point | undefined => {
  const area = cross(a.direction, b.direction);
  if (Math.abs(area) < LEAST_SINE * magnitude(a.direction) * magnitude(b.direction)) return undefined;
  const t = cross(vectorTo(a.point, b.point), b.direction) / area;
  return { x: a.point.x + a.direction.dx * t, y: a.point.y + a.direction.dy * t };
};
