/** The openings that gussets are set into, measured. */

import { lengthTo, pathLength } from '../geometry/arc-length.ts';
import { crossHorizontal, intersectPaths } from '../geometry/intersect.ts';
import { nearestPoint } from '../geometry/nearest-point.ts';
import { pathEnd, pathStart, type Path } from '../geometry/path.ts';
import { distance, point, type Point } from '../geometry/point.ts';
import { reversePath } from '../geometry/reverse-path.ts';
import { line } from '../geometry/segment.ts';
import { pathBox } from '../geometry/box.ts';
import { findLevel } from './look-up.ts';
import type { Panel, Slit } from './panel.ts';

/** The path from its upper end down, whichever way it runs. */
export const downwards = (path: Path): Path => (pathStart(path).y <= pathEnd(path).y ? path : reversePath(path));

/** Where the line straight down from a point first meets a path; undefined where it does not. */
export const straightDown = (from: Point, path: Path): Point | undefined => {
  const { maxY } = pathBox(path);
  if (maxY <= from.y) return undefined;
  const crossings = intersectPaths({ segments: [line(from, point(from.x, maxY + 1))] }, path);
  const first = crossings.map((crossing) => crossing.point).toSorted((a, b) => a.y - b.y)[0];
  return first && point(from.x, first.y);
};

/** How long an opening is, from its reinforcement point to the bottom edge; undefined where its edge is not there. */
export const openingLength = (panel: Panel, { edge: name, at, to }: Slit): number | undefined => {
  if (name === undefined) return distance(at, to);
  const edge = panel.edges.find((own) => own.name === name);
  if (edge === undefined) return undefined;
  const path = downwards(edge.path);
  return pathLength(path) - lengthTo(path, nearestPoint(path, at).location);
};

/**
 * How far below the waist, along its edge, the reinforcement point of an opened edge lies, negative above it; below the upper end of
 * an edge that does not cross the waist. Undefined for a slit, or where its edge is not there.
 */
export const pointAlong = (panel: Panel, { edge: name, at }: Slit): number | undefined => {
  const edge = name === undefined ? undefined : panel.edges.find((own) => own.name === name);
  if (edge === undefined) return undefined;
  const path = downwards(edge.path);
  const waist = findLevel(panel, 'waist');
  const crossing = waist && crossHorizontal(path, waist.y)[0];
  return lengthTo(path, nearestPoint(path, at).location) - (crossing ? lengthTo(path, crossing.location) : 0);
};
