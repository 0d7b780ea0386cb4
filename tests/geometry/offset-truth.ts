/** The true offset of an outline, worked out by brute force from closely spaced points: nothing here is shared with the code under test. */

import { flattenPath } from '../../src/geometry/flatten.ts';
import type { Path } from '../../src/geometry/path.ts';
import type { Point } from '../../src/geometry/point.ts';
import { line } from '../../src/geometry/segment.ts';

export interface WideRun {
  readonly path: Path;
  readonly distance: number;
}

export interface Misses {
  /** The farthest that a point of the result is from where the true offset can be. */
  readonly strayed: number;
  /** The farthest that a point of the true offset is from the result. */
  readonly missing: number;
  /** The farthest that the result is nearer to the path than the width. */
  readonly tooNear: number;
}

type Link = readonly [Point, Point];

const FINE = 4e-4;

/** Points along the path, nowhere farther apart than a millimetre. */
export const pointsOf = (path: Path): Point[] => {
  const points = flattenPath(path, FINE);
  return points.flatMap((p, i) => {
    const before = points[i - 1];
    if (before === undefined) return [p];
    const parts = Math.ceil(Math.hypot(p.x - before.x, p.y - before.y));
    return Array.from({ length: Math.max(1, parts) }, (_, k) => {
      const f = (k + 1) / Math.max(1, parts);
      return { x: before.x + (p.x - before.x) * f, y: before.y + (p.y - before.y) * f };
    });
  });
};

const linksOf = (points: readonly Point[]): Link[] => points.slice(1).map((p, i) => [points[i]!, p]);

const toLink = (p: Point, [a, b]: Link): number => {
  const ex = b.x - a.x;
  const ey = b.y - a.y;
  const square = ex * ex + ey * ey;
  const t = square === 0 ? 0 : Math.min(1, Math.max(0, ((p.x - a.x) * ex + (p.y - a.y) * ey) / square));
  const dx = a.x + t * ex - p.x;
  const dy = a.y + t * ey - p.y;
  return Math.sqrt(dx * dx + dy * dy);
};

/** Links sorted into strips, so that the nearest is found without asking all. */
export const nearestOf = (links: readonly Link[]): ((p: Point, atMost: number) => number) => {
  const strips = new Map<number, Link[]>();
  const size = 5;
  for (const link of links) {
    const y0 = Math.floor(Math.min(link[0].y, link[1].y) / size);
    const y1 = Math.floor(Math.max(link[0].y, link[1].y) / size);
    for (let k = y0; k <= y1; k += 1) {
      const strip = strips.get(k);
      if (strip) strip.push(link);
      else strips.set(k, [link]);
    }
  }
  return (p, atMost) => {
    let least = atMost;
    const home = Math.floor(p.y / size);
    for (let k = 0; (k - 1) * size <= least; k += 1) {
      for (const strip of k === 0 ? [home] : [home - k, home + k]) {
        for (const link of strips.get(strip) ?? []) least = Math.min(least, toLink(p, link));
      }
    }
    return least;
  };
};

/** The true offset of a closed outline of one width, against a result. */
export const missesOf = (runs: readonly WideRun[], result: readonly Path[]): Misses => {
  const width = runs[0]!.distance;
  if (runs.some((run) => run.distance !== width)) throw new Error('one width only');
  const outline = runs.flatMap((run) => run.path.segments);
  const points = outline.map((segment) => pointsOf({ segments: [segment] }));
  const links = points.flatMap(linksOf);
  const toPath = nearestOf(links);
  const reach = Math.abs(width) + 1;
  // The tangents at each node, from the control points; where they turn outwards the mitre is part of the truth.
  const kites: Point[][] = [];
  const mitres: Link[] = outline.flatMap((segment, i) => {
    const next = outline[(i + 1) % outline.length]!;
    const inward = directionOf(
      segment.kind === 'line'
        ? [segment.start, segment.end]
        : [segment.start, segment.startHandle, segment.endHandle, segment.end],
    );
    const outward = directionOf(
      next.kind === 'line' ? [next.end, next.start] : [next.end, next.endHandle, next.startHandle, next.start],
    );
    const b = { x: -outward.x, y: -outward.y };
    const angle = Math.atan2(inward.x * b.y - inward.y * b.x, inward.x * b.x + inward.y * b.y);
    if (angle * width <= 0) return [];
    const e = { x: segment.end.x + width * inward.y, y: segment.end.y - width * inward.x };
    const f = { x: segment.end.x + width * b.y, y: segment.end.y - width * b.x };
    const s = width * Math.tan(angle / 2);
    const tip = { x: e.x + s * inward.x, y: e.y + s * inward.y };
    kites.push([segment.end, e, tip, f]);
    return [[e, tip] as const, [tip, f] as const];
  });
  const toMitre = nearestOf(mitres);
  let strayed = 0;
  let tooNear = 0;
  const made = result.flatMap((path) => pointsOf(path));
  for (const p of made) {
    const away = toPath(p, reach);
    tooNear = Math.max(tooNear, Math.abs(width) - away);
    if (away - Math.abs(width) > 1e-3) strayed = Math.max(strayed, Math.min(away - Math.abs(width), toMitre(p, 1)));
    else strayed = Math.max(strayed, Math.abs(away - Math.abs(width)));
  }
  const toResult = nearestOf(linksOf(made));
  let missing = 0;
  for (const [a, b] of links) {
    const length = Math.hypot(b.x - a.x, b.y - a.y);
    if (length === 0) continue;
    const p = {
      x: (a.x + b.x) / 2 + (width * (b.y - a.y)) / length,
      y: (a.y + b.y) / 2 - (width * (b.x - a.x)) / length,
    };
    // Under the tip of a mitre the offset goes round, and the parallel of another part may end there.
    if (kites.some((kite) => isWithin(kite, p))) continue;
    if (toPath(p, reach) >= Math.abs(width) - FINE) missing = Math.max(missing, toResult(p, 50));
  }
  return { strayed, missing, tooNear };
};

const directionOf = (points: readonly Point[]): Point => {
  const end = points[points.length - 1]!;
  const other = points.toReversed().find((p) => Math.hypot(p.x - end.x, p.y - end.y) > 1e-6)!;
  const length = Math.hypot(end.x - other.x, end.y - other.y);
  return { x: (end.x - other.x) / length, y: (end.y - other.y) / length };
};

const isWithin = (convex: readonly Point[], p: Point): boolean => {
  const sides = convex.map((a, i) => {
    const b = convex[(i + 1) % convex.length]!;
    return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
  });
  return sides.every((side) => side >= -FINE) || sides.every((side) => side <= FINE);
};

/** The farthest that a point of either path is from the other. */
export const farthestApart = (a: Path, b: Path): number => {
  const [pointsA, pointsB] = [pointsOf(a), pointsOf(b)];
  const [toA, toB] = [nearestOf(linksOf(pointsA)), nearestOf(linksOf(pointsB))];
  return Math.max(...pointsA.map((p) => toB(p, 50)), ...pointsB.map((p) => toA(p, 50)));
};

/** The greatest error of any answer, given as lines of points: how far it strays from the true offset, and the true offset from it. */
export const apartFrom = (paths: readonly Path[], width: number, lines: readonly (readonly Point[])[]): number => {
  const asPaths = lines.map((points) => ({ segments: points.slice(1).map((end, i) => line(points[i]!, end)) }));
  const { strayed, missing } = missesOf(
    paths.map((path) => ({ path, distance: width })),
    asPaths.filter(({ segments }) => segments.length > 0),
  );
  return Math.max(strayed, missing);
};
