/**
 * Turning the direction in which an edge sets off from its corner, without moving the corner: the edge is displaced sideways by a bump
 * that has the slope asked for at the corner, and neither height nor slope at its far end, which may so be turned by a bump of its own.
 * The longer the bump, the less it bends: so it runs over the whole edge, up to a corner of the edge's own. It is 4/27 of its length
 * times the slope high: for a turn of 8 degrees over 80 mm, 1.7 mm.
 */

import { locationAtLength, pathLength } from '../../geometry/arc-length.ts';
import { cornersOf } from '../../geometry/corners.ts';
import { tangentOn } from '../../geometry/evaluate.ts';
import { compose, rotation, translation, type Matrix } from '../../geometry/matrix.ts';
import { pathEnd, pathStart, type Location, type Path } from '../../geometry/path.ts';
import type { Point } from '../../geometry/point.ts';
import { reversePath } from '../../geometry/reverse-path.ts';
import type { Segment } from '../../geometry/segment.ts';
import { subPath } from '../../geometry/sub-path.ts';
import { transformPath } from '../../geometry/transform-path.ts';
import type { AmountAlong } from '../seams/amount-along.ts';
import { shiftPath } from '../seams/shift-path.ts';

/** The longest stretch that is redrawn: over more, a line would move visibly far from where it was drawn, and look no fairer. */
const LONGEST = 200;

/** Over a shorter stretch a turn is no fair line any more. */
const SHORTEST = 2;

/** The bump: `slope` times the distance at first, nothing and flat from `length` on. */
const bump = (slope: number, length: number): AmountAlong => ({
  value: (y) => (y <= 0 || y >= length ? 0 : slope * y * (1 - y / length) ** 2),
  slope: (y) => (y < 0 || y > length ? 0 : slope * (1 - y / length) * (1 - (3 * y) / length)),
  breaks: [0, length],
});

/** A stretch that turns away from its first direction by more than 60 degrees is bumped over a part of it alone. */
const ONWARDS = 1 / 2;

/** Directions looked at on each segment. */
const LOOKS = 8;

/** The edge from its start to a corner of its own, or to its end. */
const smoothPart = (path: Path): Path => {
  const [corner = path.segments.length] = cornersOf(path);
  return { segments: path.segments.slice(0, corner) };
};

const runsDown = ({ segments }: Path): boolean =>
  segments.every((s) =>
    Array.from({ length: LOOKS + 1 }, (_, i) => tangentOn(s, i / LOOKS).dy).every((dy) => dy >= ONWARDS),
  );

interface Stretch {
  readonly upright: Path;
  /** Where it ends on the whole path. */
  readonly until: Location;
}

/** The longest stretch from the start that runs on in its first direction, which `turn` makes straight down; undefined where that is too short. */
const stretchOf = (path: Path, turn: Matrix): Stretch | undefined => {
  const smooth = smoothPart(path);
  const whole = pathLength(smooth);
  for (let length = Math.min(LONGEST, whole); length >= SHORTEST; length /= 2) {
    const until = length === whole ? { segment: smooth.segments.length - 1, t: 1 } : locationAtLength(smooth, length);
    const upright = transformPath(subPath(path, { segment: 0, t: 0 }, until), turn);
    if (runsDown(upright)) return { upright, until };
  }
  return undefined;
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
 * beyond the first stretch where they were, its direction at the end of the stretch too; the bump is fitted to REFIT_TOLERANCE.
 * Undefined where the stretch is shorter than 2 mm.
 */
export const turnStart = (path: Path, by: number): Path | undefined => {
  const corner = pathStart(path);
  const { dx, dy } = tangentOn(path.segments[0]!, 0);
  const aside = Math.PI / 2 - Math.atan2(dy, dx);
  const upright = compose(rotation(aside), translation(-corner.x, -corner.y));
  const back = compose(translation(corner.x, corner.y), rotation(-aside));
  const stretch = stretchOf(path, upright);
  if (stretch === undefined) return undefined;
  const along = bump(-Math.tan(by), pathEnd(stretch.upright).y);
  const bumped = transformPath(shiftPath(stretch.upright, along), back);
  const end = { segment: path.segments.length - 1, t: 1 };
  const isWhole = stretch.until.segment === end.segment && stretch.until.t === 1;
  if (isWhole) return { segments: between(bumped, corner, pathEnd(path)) };
  const rest = subPath(path, stretch.until, end);
  return { segments: [...between(bumped, corner, pathStart(rest)), ...rest.segments] };
};

/** As `turnStart`, for the direction in which the path arrives at its end. */
export const turnEnd = (path: Path, by: number): Path | undefined => {
  const turned = turnStart(reversePath(path), by);
  return turned && reversePath(turned);
};
