/** Where paths cross each other, a horizontal, or themselves: each place once. */
import { lengthBetween, segmentLength } from './arc-length.ts';
import { boxesMeet, extremaOf, looseBox } from './box.ts';
import { crossItself, crossSegments } from './cross-segments.ts';
import { pointOn } from './evaluate.ts';
import { isClosed, type Location, type Path } from './path.ts';
import { distance, type Point } from './point.ts';
import type { Segment } from './segment.ts';
import { bernsteinAt, rootsOf } from './solve-roots.ts';
import { SAME_POINT } from './tolerance.ts';

/** A place where two paths meet. */
export interface Crossing {
  readonly a: Location;
  readonly b: Location;
  readonly point: Point;
}

type SamePlace = (p: Location, q: Location) => boolean;

/** Tells whether two places are one: no more than a rounding error apart along the path, round the joint of a closed one included. */
const samePlaceOn = (path: Path, within = 2 * SAME_POINT): SamePlace => {
  const closed = isClosed(path);
  let starts: readonly number[] | undefined;
  const along = ({ segment, t }: Location): number => {
    starts ??= startsOf(path);
    return starts[segment]! + lengthBetween(path.segments[segment]!, 0, t);
  };
  return (p, q) => {
    if (p.segment === q.segment && p.t === q.t) return true;
    const apart = Math.abs(along(p) - along(q));
    return apart <= within || (closed && starts!.at(-1)! - apart <= within);
  };
};

/** The length along the path to the start of each segment, then to its end. */
const startsOf = (path: Path): number[] => {
  const starts = [0];
  for (const s of path.segments) starts.push(starts.at(-1)! + segmentLength(s));
  return starts;
};

const inOrder = (p: Location, q: Location): number => p.segment - q.segment || p.t - q.t;

/**
 * All places where two paths meet, each once, in order along `a`; touching and shared ends count. Points are exact to
 * CROSSING_TOLERANCE. Where the paths run along each other, the ends of that stretch. Work is bounded.
 */
export const intersectPaths = (a: Path, b: Path): Crossing[] => {
  const boxes = b.segments.map(looseBox);
  const [sameOnA, sameOnB] = [samePlaceOn(a), samePlaceOn(b)];
  const found: Crossing[] = [];
  for (const [i, s] of a.segments.entries()) {
    const box = looseBox(s);
    for (const [j, r] of b.segments.entries()) {
      if (!boxesMeet(box, boxes[j]!, SAME_POINT)) continue;
      for (const { t, u } of crossSegments(s, r)) {
        const crossing = { a: { segment: i, t }, b: { segment: j, t: u }, point: pointOn(s, t) };
        const known = found.some(
          (f) =>
            distance(f.point, crossing.point) <= SAME_POINT && sameOnA(f.a, crossing.a) && sameOnB(f.b, crossing.b),
        );
        if (!known) found.push(crossing);
      }
    }
  }
  return found.toSorted((p, q) => inOrder(p.a, q.a) || inOrder(p.b, q.b));
};

const heightsOf = (s: Segment, y: number): number[] =>
  s.kind === 'line'
    ? [s.start.y - y, s.end.y - y]
    : [s.start.y - y, s.startHandle.y - y, s.endHandle.y - y, s.end.y - y];

/** Where one segment is at a height: crossings, then ends and turning points that come within SAME_POINT of it. */
const placesAtHeight = (s: Segment, y: number): number[] => {
  const heights = heightsOf(s, y);
  const crossings = rootsOf(heights);
  const cuts = [0, ...extremaOf(s).y.filter((t) => t > 0 && t < 1), 1];
  const touches = cuts.filter((t, i) => {
    if (Math.abs(bernsteinAt(heights, t)) > SAME_POINT) return false;
    const [before, after] = [cuts[i - 1] ?? t, cuts[i + 1] ?? t];
    return !crossings.some((c) => c >= before && c <= after);
  });
  return [...crossings, ...touches];
};

/**
 * Where the path is at height `y`, in order along it. A place where it only touches (a turning point, an end, a joint) counts once,
 * and counts from SAME_POINT away, so that a level drawn through a corner finds it. A horizontal piece at `y` gives its two ends.
 */
export const crossHorizontal = (path: Path, y: number): { location: Location; point: Point }[] => {
  const found: { location: Location; point: Point }[] = [];
  const same = samePlaceOn(path);
  for (const [segment, s] of path.segments.entries()) {
    const box = looseBox(s);
    if (box.minY > y + SAME_POINT || box.maxY < y - SAME_POINT) continue;
    for (const t of placesAtHeight(s, y).toSorted((p, q) => p - q)) {
      const { x } = pointOn(s, t);
      const location = { segment, t };
      const known = found.some((f) => Math.abs(f.point.x - x) <= SAME_POINT && same(f.location, location));
      if (!known) found.push({ location, point: { x, y } });
    }
  }
  return found;
};

/**
 * Where the path crosses or touches itself, once each; the joints of neighbouring segments and the joint of a closed path do not count.
 * A stretch run over twice gives the ends of that stretch.
 */
export const selfCrossings = (path: Path): Crossing[] => {
  const { segments } = path;
  const boxes = segments.map(looseBox);
  const found: Crossing[] = [];
  const [same, isJoint] = [samePlaceOn(path), samePlaceOn(path, 10 * SAME_POINT)];
  const add = (i: number, t: number, j: number, u: number): void => {
    const [a, b] = [
      { segment: i, t },
      { segment: j, t: u },
    ];
    const at = pointOn(segments[i]!, t);
    if (isJoint(a, b)) return;
    if (found.some((f) => distance(f.point, at) <= SAME_POINT && same(f.a, a) && same(f.b, b))) return;
    found.push({ a, b, point: at });
  };
  for (const [i, s] of segments.entries()) {
    const own = crossItself(s);
    if (own !== undefined) add(i, own.t, i, own.u);
    for (let j = i + 1; j < segments.length; j += 1) {
      if (!boxesMeet(boxes[i]!, boxes[j]!, SAME_POINT)) continue;
      for (const { t, u } of crossSegments(s, segments[j]!)) add(i, t, j, u);
    }
  }
  return found;
};
