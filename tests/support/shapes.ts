import type { Path } from '../../src/geometry/path.ts';
import { point, type Point } from '../../src/geometry/point.ts';
import { cubic, line } from '../../src/geometry/segment.ts';

/** Straight segments through points given as pairs. */
export const polyline = (...points: readonly (readonly [number, number])[]): Path => ({
  segments: points.slice(1).map(([x, y], i) => line(point(...points[i]!), point(x, y))),
});

export const polygon = (...points: readonly (readonly [number, number])[]): Path => polyline(...points, points[0]!);

/** One cubic from eight numbers. */
export const curve = (...n: readonly [number, number, number, number, number, number, number, number]): Path => ({
  segments: [cubic(point(n[0], n[1]), point(n[2], n[3]), point(n[4], n[5]), point(n[6], n[7]))],
});

/** An ellipse about the origin by `pieces` equal cubics, clockwise on paper, from its rightmost point. */
export const ellipse = (a: number, b: number, pieces = 4): Path => {
  const step = (2 * Math.PI) / pieces;
  const k = (4 / 3) * Math.tan(step / 4);
  const at = (i: number): Point => {
    const angle = (i % pieces) * step;
    return point(a * Math.cos(angle), b * Math.sin(angle));
  };
  const ahead = (i: number, way: number): Point => {
    const angle = i * step;
    return point(a * (Math.cos(angle) - way * k * Math.sin(angle)), b * (Math.sin(angle) + way * k * Math.cos(angle)));
  };
  return {
    segments: Array.from({ length: pieces }, (_, i) => cubic(at(i), ahead(i, 1), ahead(i + 1, -1), at(i + 1))),
  };
};

export const circle = (radius: number, pieces = 4): Path => ellipse(radius, radius, pieces);

/** The quadratic Bezier curve as the cubic that it equals. */
export const quadratic = (a: Point, control: Point, b: Point): Path => ({
  segments: [
    cubic(
      a,
      point(a.x + (2 / 3) * (control.x - a.x), a.y + (2 / 3) * (control.y - a.y)),
      point(b.x + (2 / 3) * (control.x - b.x), b.y + (2 / 3) * (control.y - b.y)),
      b,
    ),
  ],
});
