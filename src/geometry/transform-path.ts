import type { Matrix } from './matrix.ts';
import type { Path } from './path.ts';
import { movePoint, type Point } from './point.ts';
import { cubic, line } from './segment.ts';
import type { Vector } from './vector.ts';

export const transformPoint = (p: Point, m: Matrix): Point => ({
  x: m.a * p.x + m.c * p.y + m.e,
  y: m.b * p.x + m.d * p.y + m.f,
});

/** The path with every point sent through `move`, which must be affine for the result to be the curve's true image. */
const mapPath = (path: Path, move: (p: Point) => Point): Path => ({
  segments: path.segments.map((s) =>
    s.kind === 'line'
      ? line(move(s.start), move(s.end))
      : cubic(move(s.start), move(s.startHandle), move(s.endHandle), move(s.end)),
  ),
});

/** The image under an affine map, which is exact. A mirroring map turns clockwise into anticlockwise: reverse the result if that matters. */
export const transformPath = (path: Path, matrix: Matrix): Path => mapPath(path, (p) => transformPoint(p, matrix));

export const translatePath = (path: Path, by: Vector): Path => mapPath(path, (p) => movePoint(p, by));
