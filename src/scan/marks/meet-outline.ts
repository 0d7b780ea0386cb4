import { tangentOn } from '../../geometry/evaluate.ts';
import { intersectPaths } from '../../geometry/intersect.ts';
import type { Location, Path } from '../../geometry/path.ts';
import type { Point } from '../../geometry/point.ts';
import { line, type Line } from '../../geometry/segment.ts';
import { turn, vectorTo, type Vector } from '../../geometry/vector.ts';

export interface Meeting {
  readonly at: Point;
  readonly location: Location;
  readonly tangent: Vector;
  /** Between the line and the outline, 0 to a quarter turn. */
  readonly angle: number;
}

/** The angle between two directions taken as lines, 0 to a quarter turn. */
export const angleBetween = (a: Vector, b: Vector): number => {
  const angle = Math.abs(turn(a, b));
  return Math.min(angle, Math.PI - angle);
};

/** Where a line, drawn on at its end by `reach` and taken back by as much, meets the outline nearest to its end. */
export const meetOutline = (outline: Path, to: Line, reach: number): Meeting | undefined => {
  const long = Math.hypot(to.end.x - to.start.x, to.end.y - to.start.y);
  const [dx, dy] = [(to.end.x - to.start.x) / long, (to.end.y - to.start.y) / long];
  const feeler = line(
    { x: to.end.x - dx * reach, y: to.end.y - dy * reach },
    { x: to.end.x + dx * reach, y: to.end.y + dy * reach },
  );
  let best: { at: Point; location: Location; away: number } | undefined;
  for (const { b, point } of intersectPaths({ segments: [feeler] }, outline)) {
    const away = Math.hypot(point.x - to.end.x, point.y - to.end.y);
    if (best === undefined || away < best.away) best = { at: point, location: b, away };
  }
  if (!best) return undefined;
  const tangent = tangentOn(outline.segments[best.location.segment]!, best.location.t);
  return { at: best.at, location: best.location, tangent, angle: angleBetween(tangent, vectorTo(to.start, to.end)) };
};
