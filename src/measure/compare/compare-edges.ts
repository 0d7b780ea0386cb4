import { lengthTo, pathLength } from '../../geometry/arc-length.ts';
import { nearestPoint } from '../../geometry/nearest-point.ts';
import { pathEnd, pathStart, type Path } from '../../geometry/path.ts';
import { distance, type Point } from '../../geometry/point.ts';
import { reversePath } from '../../geometry/reverse-path.ts';
import type { Segment } from '../../geometry/segment.ts';
import { SAME_POINT } from '../../geometry/tolerance.ts';
import { crossEdge } from '../../pattern/chord.ts';
import { levelCalled } from '../../pattern/girth-at.ts';
import { levelYIfAny } from '../../pattern/level-y.ts';
import { seamSidesOf, sidesOf, waistOf } from '../../pattern/look-up.ts';
import type { Edge, Panel } from '../../pattern/panel.ts';
import { UNCHANGED, type EdgeComparison, type EdgeKind, type EndMove } from './comparison.ts';
import { curvesApart, type Apart } from './curves-apart.ts';

const numbersOf = (s: Segment): number[] =>
  (s.kind === 'line' ? [s.start, s.end] : [s.start, s.startHandle, s.endHandle, s.end]).flatMap(({ x, y }) => [x, y]);

/** Whether two paths are drawn alike, point for point, at the decimals that a sheet is written with. */
const isSame = (one: Path, other: Path): boolean =>
  one.segments.length === other.segments.length &&
  one.segments.every((s, i) => {
    const numbers = numbersOf(other.segments[i]!);
    return s.kind === other.segments[i]!.kind && numbersOf(s).every((n, j) => Math.abs(n - numbers[j]!) < SAME_POINT);
  });

type Place = EdgeComparison['place'];

/** Where an edge is on its panel, by the panel's own order of edges. */
const placeOf = (panel: Panel, edge: Edge): Place => {
  const seams = seamSidesOf(panel);
  const sides = sidesOf(panel);
  if (edge === seams?.front) return 'front';
  if (edge === seams?.back) return 'back';
  if (edge === sides?.top) return 'top';
  return seams && edge.name === 'bottom' ? 'bottom' : 'other';
};

/** How much of `path` lies past the place nearest to `p`, up to its end. */
const lengthPast = (path: Path, p: Point): number => pathLength(path) - lengthTo(path, nearestPoint(path, p).location);

/** The end of the second path against that of the first; towards the back of a panel x grows. */
const endMove = (before: Path, after: Path, at: string, away: number): EndMove => {
  const [was, is] = [pathEnd(before), pathEnd(after)];
  return {
    at,
    up: was.y - is.y,
    outwards: (is.x - was.x) * away,
    longer: lengthPast(after, was) - lengthPast(before, is),
  };
};

/** Both ends, in the order of the outline. The corners at the front of a panel go outwards to the left. */
const endMoves = (panel: Panel, index: number, before: Path, after: Path, place: Place): EndMove[] => {
  const count = panel.edges.length;
  const [previous, next] = [panel.edges[(index + count - 1) % count]!.name, panel.edges[(index + 1) % count]!.name];
  const startAway = place === 'front' || place === 'top' ? -1 : 1;
  const endAway = place === 'front' || place === 'bottom' ? -1 : 1;
  return [endMove(reversePath(before), reversePath(after), previous, startAway), endMove(before, after, next, endAway)];
};

const levelMoves = (before: Panel, after: Panel, was: Path, is: Path, away: number, levels: readonly string[]) =>
  levels.map((level) => {
    const [y, now] = [before, after].map((panel) => levelYIfAny(panel, levelCalled(level)));
    const [one, other] = [
      y === undefined ? undefined : crossEdge(was, y),
      now === undefined ? undefined : crossEdge(is, now),
    ];
    return { level, outwards: one && other ? (other.sum - one.sum) * away : undefined };
  });

/** What is drawn alike, point for point, needs no looking at. */
const nowhereApart = (path: Path): { readonly all: Apart; readonly beside: Apart } => {
  const apart = { distance: 0, before: pathStart(path), after: pathStart(path) };
  return { all: apart, beside: apart };
};

const kindOf = (was: Path, is: Path, all: Apart, beside: Apart | undefined): EdgeKind => {
  if (isSame(was, is)) return 'same';
  if (all.distance <= UNCHANGED) return 'redrawn';
  return beside !== undefined && beside.distance <= UNCHANGED ? 'ends' : 'moved';
};

/** This near to an end is at that end, to a maker. Millimetres. */
const AT_END = 3;

const endNear = (
  was: Path,
  is: Path,
  { before, after }: Apart,
  [start, end]: readonly EndMove[],
): string | undefined => {
  const isAt = (endOf: (path: Path) => Point): boolean =>
    distance(before, endOf(was)) < AT_END || distance(after, endOf(is)) < AT_END;
  if (isAt(pathStart)) return start!.at;
  return isAt(pathEnd) ? end!.at : undefined;
};

/** The greatest move with its sign: along a level where that is more than square to the line, which is how an amount was typed. */
const mostOf = (place: Place, { distance: apart, before, after }: Apart, levels: EdgeComparison['levels']): number => {
  if (place === 'top' || place === 'bottom') return apart * (after.y > before.y ? -1 : 1);
  if (place === 'other') return apart;
  const along = levels
    .map(({ outwards = 0 }) => outwards)
    .reduce((most, one) => (Math.abs(one) > Math.abs(most) ? one : most), 0);
  if (Math.abs(along) >= apart) return along;
  return apart * (after.x - before.x < 0 === (place === 'back') ? -1 : 1);
};

/**
 * Every edge of a panel against the edge of that name in its other version, which is laid on it already. `levels` are those of both.
 * Distances as `curvesApart` finds them.
 */
export const compareEdges = (before: Panel, after: Panel, levels: readonly string[]): EdgeComparison[] =>
  after.edges.flatMap((edge, index) => {
    const old = before.edges.find(({ name }) => name === edge.name);
    if (old === undefined) return [];
    const [was, is] = [old.path, edge.path];
    const place = placeOf(after, edge);
    const { all, beside } = isSame(was, is) ? nowhereApart(was) : curvesApart(was, is);
    const kind = kindOf(was, is, all, beside);
    const apart = beside ?? all;
    const isSeam = place === 'front' || place === 'back';
    const moves = isSeam ? levelMoves(before, after, was, is, place === 'back' ? 1 : -1, levels) : [];
    const waist = waistOf(before);
    const ends = endMoves(after, index, was, is, place);
    return [
      {
        edge: edge.name,
        place,
        kind,
        apart: apart.distance,
        from: apart.before,
        to: apart.after,
        height: waist === undefined ? undefined : waist - apart.before.y,
        near: endNear(was, is, apart, ends),
        most: kind === 'moved' ? mostOf(place, apart, moves) : 0,
        levels: moves,
        ends,
        length: { before: pathLength(was), after: pathLength(is) },
        allowance: { before: old.allowance, after: edge.allowance },
        corners: { before: old.corners, after: edge.corners },
      },
    ];
  });
