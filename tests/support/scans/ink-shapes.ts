/** Inked lines and cut edges as polygons in millimetres, 1e-4 mm from the truth at most; printed corners are mitred. */
import { lengthTo } from '../../../src/geometry/arc-length.ts';
import { pointOn, tangentOn } from '../../../src/geometry/evaluate.ts';
import { flattenPath } from '../../../src/geometry/flatten.ts';
import type { Location, Path } from '../../../src/geometry/path.ts';
import { between, distance, movePoint, type Point } from '../../../src/geometry/point.ts';
import { cross, dot, leftNormal, scaled, turn, unit, vectorTo, type Vector } from '../../../src/geometry/vector.ts';

const FLATNESS = 1e-4;
/** A turn of more than this, in radians, is a corner. */
const CORNER = 0.05;

export interface Run {
  readonly points: readonly Point[];
  /** Outwards, of length 1, at each point. */
  readonly normals: readonly Vector[];
}

/** The smooth runs of a closed path, from corner to corner; one run with its ends together when there is no corner. */
export const smoothRuns = (path: Path): Run[] => {
  const runs: { points: Point[]; normals: Vector[] }[] = [];
  for (const [i, s] of path.segments.entries()) {
    const before = path.segments.at(i - 1)!;
    if (i === 0 || Math.abs(turn(tangentOn(before, 1), tangentOn(s, 0))) > CORNER)
      runs.push({ points: [], normals: [] });
    const steps = flattenPath({ segments: [s] }, FLATNESS).length - 1;
    const current = runs.at(-1)!;
    for (let k = current.points.length === 0 ? 0 : 1; k <= steps; k += 1) {
      current.points.push(pointOn(s, k / steps));
      current.normals.push(leftNormal(tangentOn(s, k / steps)));
    }
  }
  const [first, last] = [path.segments[0]!, path.segments.at(-1)!];
  if (runs.length > 1 && Math.abs(turn(tangentOn(last, 1), tangentOn(first, 0))) <= CORNER) {
    const end = runs.pop()!;
    runs[0]!.points.unshift(...end.points.slice(0, -1));
    runs[0]!.normals.unshift(...end.normals.slice(0, -1));
  }
  return runs;
};

const meeting = (a: Point, along: Vector, b: Point, other: Vector): Point | undefined => {
  const area = cross(along, other);
  return area === 0 ? undefined : movePoint(a, scaled(along, cross(vectorTo(a, b), other) / area));
};

/** Where two polylines cross first, looking back from the end of `a` and on from the start of `b`. */
const crossing = (a: readonly Point[], b: readonly Point[]): { i: number; j: number; at: Point } | undefined => {
  for (let j = 1; j < Math.min(b.length, 400); j += 1) {
    for (let i = a.length - 1; i > Math.max(0, a.length - 400); i -= 1) {
      const [p, q, r, s] = [a[i - 1]!, a[i]!, b[j - 1]!, b[j]!];
      const area = cross(vectorTo(p, q), vectorTo(r, s));
      const t = cross(vectorTo(p, r), vectorTo(r, s)) / area;
      const u = cross(vectorTo(p, r), vectorTo(p, q)) / area;
      if (t >= 0 && t <= 1 && u >= 0 && u <= 1) return { i, j, at: between(p, q, t) };
    }
  }
  return undefined;
};

/** The closed line `by` outside (inside, if negative) a closed path of smooth runs: sharp outside, cut where it crosses inside. */
export const besideRuns = (runs: readonly Run[], by: number): Point[] => {
  const sides = runs.map(({ points, normals }) => points.map((p, i) => movePoint(p, scaled(normals[i]!, by))));
  if (runs.length === 1) return sides[0]!;
  const starts = sides.map(() => 0);
  const ends = sides.map((side) => side.length);
  const corners: Point[] = [];
  for (const [k, a] of sides.entries()) {
    const next = (k + 1) % sides.length;
    const b = sides[next]!;
    const ahead = unit(vectorTo(a.at(-2)!, a.at(-1)!));
    const onwards = unit(vectorTo(b[0]!, b[1]!));
    const met = cross(ahead, onwards) * by > 0 ? undefined : crossing(a, b);
    if (met) {
      ends[k] = met.i;
      starts[next] = met.j;
      corners.push(met.at);
    } else corners.push(meeting(a.at(-1)!, ahead, b[0]!, onwards) ?? b[0]!);
  }
  return sides.flatMap((side, k) => [...side.slice(starts[k], ends[k]), corners[k]!]);
};

/** A closed line of the given width along a path: its outer edge and, the other way round, its inner one. */
export const closedStroke = (path: Path, width: number): Point[][] => {
  const runs = smoothRuns(path);
  return [besideRuns(runs, width / 2), besideRuns(runs, -width / 2).toReversed()];
};

/** A line of the given width along a polyline, with mitred joints and square ends. */
export const openStroke = (points: readonly Point[], width: number): Point[] => {
  const ways = points.slice(1).map((p, i) => unit(vectorTo(points[i]!, p)));
  const beside = (by: number): Point[] =>
    points.map((p, i) => {
      const [before, after] = [ways[Math.max(0, i - 1)]!, ways[Math.min(i, ways.length - 1)]!];
      const sum = unit({ dx: before.dx + after.dx, dy: before.dy + after.dy });
      const half = Math.max(0.4, dot(sum, before));
      return movePoint(p, scaled(leftNormal(sum), by / half));
    });
  return [...beside(width / 2), ...beside(-width / 2).toReversed()];
};

export const disc = (at: Point, radius: number, corners = 12): Point[] =>
  Array.from({ length: corners }, (_, i) => {
    const angle = (2 * Math.PI * i) / corners;
    return { x: at.x + radius * Math.cos(angle), y: at.y + radius * Math.sin(angle) };
  });

/** A point at each step along a polyline, with the way it goes there. */
export const alongPoints = (points: readonly Point[], step: number): { at: Point; way: Vector }[] => {
  const found: { at: Point; way: Vector }[] = [];
  let ahead = 0;
  for (let i = 1; i < points.length; i += 1) {
    const [a, b] = [points[i - 1]!, points[i]!];
    const length = distance(a, b);
    if (length === 0) continue;
    for (; ahead <= length; ahead += step) {
      found.push({ at: between(a, b, ahead / length), way: unit(vectorTo(a, b)) });
    }
    ahead -= length;
  }
  return found;
};

/** The edge of a cut-out piece: its outline with a V cut at each notch, `half` along the edge to both sides of its place. */
export const cutEdge = (path: Path, cuts: readonly { place: Location; tip: Point }[], half: number): Point[] => {
  const points = flattenPath(path, FLATNESS);
  const middles = cuts.map(({ place, tip }) => ({ length: lengthTo(path, place), tip }));
  const edge: Point[] = [points[0]!];
  let length = 0;
  for (let i = 1; i < points.length; i += 1) {
    const [a, b] = [points[i - 1]!, points[i]!];
    const step = distance(a, b);
    const within = (at: number): boolean => at > length && at <= length + step;
    for (const cut of middles.toSorted((one, other) => one.length - other.length)) {
      const [from, to] = [cut.length - half, cut.length + half];
      if (within(from)) edge.push(between(a, b, (from - length) / step), cut.tip);
      if (within(to)) edge.push(between(a, b, (to - length) / step));
    }
    length += step;
    if (middles.every((cut) => Math.abs(cut.length - length) > half)) edge.push(b);
  }
  return edge.slice(0, -1);
};
