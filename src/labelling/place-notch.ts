import { isInside } from '../geometry/area.ts';
import { flattenPath } from '../geometry/flatten.ts';
import { intersectPaths } from '../geometry/intersect.ts';
import { nearestPoint } from '../geometry/nearest-point.ts';
import { tangentOn } from '../geometry/evaluate.ts';
import { isClosed, pathEnd, pathStart, type Path } from '../geometry/path.ts';
import { between, distance, movePoint, type Point } from '../geometry/point.ts';
import { roundPoint } from '../geometry/round-path.ts';
import { leftNormal, scaled } from '../geometry/vector.ts';
import { outlineOf } from '../pattern/outline.ts';
import type { Edge, Notch, Panel } from '../pattern/panel.ts';
import { LONGEST_NOTCH, TOUCH } from './sort-strokes.ts';

/** How closely a notch's own line is followed, in millimetres. */
const STEP = 0.05;

/**
 * The notch that a short line makes on a panel: from its point on the nearest edge to its end inside. A V has both ends on the edge
 * and its point inside; a line that only comes to the edge from outside is turned inwards, square to the edge. Undefined for a line
 * that lies along the edge and reaches nowhere.
 */
export const placeNotch = (panel: Panel, drawn: Path): Notch | undefined => {
  const outline = outlineOf(panel);
  const points = flattenPath(drawn, STEP);
  const inner = farthest(
    outline,
    points.filter((p) => isInside(outline, p)),
  );
  const mark = markOn(outline, drawn, points);
  const { edge, location, at } = edgeNearest(panel, mark);
  if (inner !== undefined && distance(inner, at) > TOUCH)
    return { edge: edge.name, at: roundPoint(at), inner: roundPoint(inner) };
  const length = Math.max(...points.map((p) => distance(p, at)));
  if (length <= TOUCH) return undefined;
  const outwards = leftNormal(tangentOn(edge.path.segments[location.segment]!, location.t));
  const end = movePoint(at, scaled(outwards, -Math.min(length, LONGEST_NOTCH)));
  return { edge: edge.name, at: roundPoint(at), inner: roundPoint(end) };
};

/** Where the line marks the outline: half-way between the two outermost places where it meets it, else its end nearest to it. */
const markOn = (outline: Path, drawn: Path, points: readonly Point[]): Point => {
  const tips = isClosed(drawn) ? points : [pathStart(drawn), pathEnd(drawn)];
  const ends = tips.filter((p) => nearestPoint(outline, p).distance <= TOUCH);
  const crossings = intersectPaths(drawn, outline).map((crossing) => crossing.point);
  const met = crossings.length > 0 && ends.length < 2 ? crossings : ends;
  const [first] = met;
  if (first !== undefined) {
    const last = met.toSorted((a, b) => distance(b, first) - distance(a, first))[0]!;
    return between(first, last, 0.5);
  }
  return points.toSorted((a, b) => nearestPoint(outline, a).distance - nearestPoint(outline, b).distance)[0]!;
};

const farthest = (outline: Path, points: readonly Point[]): Point | undefined =>
  points.toSorted((a, b) => nearestPoint(outline, b).distance - nearestPoint(outline, a).distance)[0];

const edgeNearest = (panel: Panel, p: Point) => {
  const found = panel.edges.map((edge: Edge) => {
    const nearest = nearestPoint(edge.path, p);
    return { edge, at: nearest.point, location: nearest.location, distance: nearest.distance };
  });
  return found.toSorted((a, b) => a.distance - b.distance)[0]!;
};
