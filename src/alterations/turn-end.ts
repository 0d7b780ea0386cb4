/**
 * Turning the direction in which an edge sets off from its corner, without moving the corner: its first stretch is displaced sideways by
 * a bump that has the slope asked for at the corner, and neither height nor slope where the stretch ends. For a turn of 15 degrees over
 * 40 mm the bump is 1.6 mm high.
 */

import { locationAtLength, pathLength } from '../geometry/arc-length.ts';
import { cornersOf } from '../geometry/corners.ts';
import { tangentOn } from '../geometry/evaluate.ts';
import { compose, rotation, translation } from '../geometry/matrix.ts';
import { pathEnd, pathStart, type Location, type Path } from '../geometry/path.ts';
import type { Point } from '../geometry/point.ts';
import { reversePath } from '../geometry/reverse-path.ts';
import type { Segment } from '../geometry/segment.ts';
import { subPath } from '../geometry/sub-path.ts';
import { transformPath, transformPoint } from '../geometry/transform-path.ts';
import type { AmountAlong } from './amount-along.ts';
import { shiftPath } from './shift-path.ts';

/** The longest stretch that is redrawn: what a french curve is laid to on either side of a seam. */
const LONGEST = 40;

/** No more of an edge than this is redrawn from one of its ends, so that its other end may be turned as well. */
const SHARE = 1 / 2;

/** Over a shorter stretch a turn is no fair line any more. */
const SHORTEST = 2;

/** The bump: `slope` times the distance at first, nothing and flat from `length` on. */
const bump = (slope: number, length: number): AmountAlong => ({
  value: (y) => (y <= 0 || y >= length ? 0 : slope * y * (1 - y / length) ** 2),
  slope: (y) => (y < 0 || y > length ? 0 : slope * (1 - y / length) * (1 - (3 * y) / length)),
  breaks: [0, length],
});

/** Where the stretch that is redrawn ends: at a corner of the edge's own at the latest. */
const stretchEnd = (path: Path): Location => {
  const [corner = path.segments.length] = cornersOf(path);
  const smooth = { segments: path.segments.slice(0, corner) };
  return locationAtLength(smooth, Math.min(LONGEST, SHARE * pathLength(path)));
};

/** The path with its two ends put exactly on these points, from which it is off by rounding only. */
const between = ({ segments }: Path, start: Point, end: Point): Segment[] => {
  const put = [...segments];
  put[0] = { ...put[0]!, start };
  put[put.length - 1] = { ...put.at(-1)!, end };
  return put;
};

/**
 * The path with its start turned by `by` radians (clockwise on paper where positive, under a quarter turn), its first point and all
 * beyond the first stretch where they were; the bump is fitted to REFIT_TOLERANCE. Undefined where the stretch is shorter than 2 mm,
 * or bends back on itself.
 */
export const turnStart = (path: Path, by: number): Path | undefined => {
  const cut = stretchEnd(path);
  const stretch = subPath(path, { segment: 0, t: 0 }, cut);
  const rest = subPath(path, cut, { segment: path.segments.length - 1, t: 1 });
  const corner = pathStart(path);
  const { dx, dy } = tangentOn(path.segments[0]!, 0);
  const aside = Math.PI / 2 - Math.atan2(dy, dx);
  const upright = compose(rotation(aside), translation(-corner.x, -corner.y));
  const back = compose(translation(corner.x, corner.y), rotation(-aside));
  const length = transformPoint(pathEnd(stretch), upright).y;
  if (length < SHORTEST) return undefined;
  const bumped = transformPath(shiftPath(transformPath(stretch, upright), bump(-Math.tan(by), length)), back);
  return { segments: [...between(bumped, corner, pathStart(rest)), ...rest.segments] };
};

/** As `turnStart`, for the direction in which the path arrives at its end. */
export const turnEnd = (path: Path, by: number): Path | undefined => {
  const turned = turnStart(reversePath(path), by);
  return turned && reversePath(turned);
};
