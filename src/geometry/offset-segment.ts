/**
 * The parallel of one segment as few cubics: exact ends and end tangents, so that two handle lengths are the only unknowns,
 * found by Gauss-Newton on the signed distance to the true parallel (moving a point by v changes its distance from a curve
 * by v along the normal at its nearest point). Where one is over the tolerance, the longest that is not is followed by the next.
 */

import { StaywrightError } from '../errors.ts';
import { distance, samePoint, type Point } from './point.ts';
import { cubic, line, type Cubic, type Segment } from './segment.ts';
import { subSegment } from './split.ts';
import { offsetDeviation } from './offset-check.ts';
import { footNear, forwardness, parallelAt, tangentAt, type Source } from './offset-source.ts';
import { FIT_DAMPING, FIT_SETTLED, SAME_POINT } from './tolerance.ts';
import { cross, vectorTo } from './vector.ts';
import { withoutCrumbs } from './without-crumbs.ts';

/** More pieces than this to one segment are no drawn curve. */
const MOST_PIECES = 100;
/** Tries for the end of a piece: until one fits, and so many that the piece is nearly as long as it can be. */
const MOST_TRIES = 40;
const ENOUGH_TRIES = 4;
/** Where the fit looks: denser towards the ends, as for a best polynomial. */
const STATIONS = [0.05, 0.18, 0.34, 0.5, 0.66, 0.82, 0.95];
const ROUNDS = 6;

/**
 * The parallel of `source` between the parameters `from` and `to`, from `start` to `end` (the parallel's own ends, or points
 * a little way along its end tangents), within `tolerance`. The parallel must run forward all the way.
 */
export const offsetSegment = (
  source: Source,
  from: number,
  to: number,
  start: Point,
  end: Point,
  tolerance: number,
): readonly Segment[] => {
  if (source.straight) return [line(start, end)];
  if (source.distance === 0) return [ownPiece(source, from, to, start, end)];
  const pieces: Cubic[] = [];
  const aside = Math.max(offParallel(source, from, start), offParallel(source, to, end));
  for (let [at, joint] = [from, start]; at < to;) {
    const fit = longestFit(source, at, to, joint, end, tolerance + aside);
    pieces.push(fit.curve);
    [at, joint] = [fit.to, fit.curve.end];
    if (pieces.length > MOST_PIECES) throw tooTight();
  }
  // Next to a cusp pieces shrink to points.
  return withoutCrumbs({ segments: pieces }, SAME_POINT).segments;
};

/** How far beside the parallel's own end at `t` a point lies: ends that only touched were brought together. */
const offParallel = (source: Source, t: number, p: Point): number =>
  Math.abs(cross(tangentAt(source, t), vectorTo(parallelAt(source, t), p)));

/** The source itself between two parameters, its ends put exactly where they belong. */
const ownPiece = (source: Source, from: number, to: number, start: Point, end: Point): Segment => {
  const piece = subSegment(source.segment, from, to);
  if (piece.kind === 'line') return line(start, end);
  if (samePoint(piece.start, start) && samePoint(piece.end, end)) return piece;
  return cubic(start, piece.startHandle, piece.endHandle, end);
};

interface Fit {
  readonly curve: Cubic;
  readonly to: number;
}

/** The longest cubic from `from` on that fits: the whole way, or to where a few tries between what fits and what does not have led. */
const longestFit = (source: Source, from: number, to: number, start: Point, end: Point, tolerance: number): Fit => {
  let tried = fitTo(source, from, to, start, end, tolerance);
  let best = tried.miss <= tolerance ? tried : undefined;
  let high = to;
  for (let i = 0; i < MOST_TRIES && (best === undefined || (best.to < to && i < ENOUGH_TRIES)); i += 1) {
    // The miss grows with about the fifth power of the length.
    const shorter = Math.min(0.9, Math.max(0.3, 0.95 * (tolerance / tried.miss) ** 0.2));
    const next = best === undefined ? from + (high - from) * shorter : (best.to + high) / 2;
    tried = fitTo(source, from, next, start, parallelAt(source, next), tolerance);
    if (tried.miss <= tolerance) best = tried;
    else high = next;
  }
  if (best === undefined) throw tooTight();
  return best;
};

const fitTo = (
  source: Source,
  from: number,
  to: number,
  start: Point,
  end: Point,
  tolerance: number,
): Fit & { readonly miss: number } => {
  const point = cubic(start, start, end, end);
  const isPoint =
    distance(start, end) < SAME_POINT && distance(start, parallelAt(source, (from + to) / 2)) < SAME_POINT;
  if (isPoint) return { curve: point, to, miss: 0 };
  const curve = fitHandles(source, from, to, start, end, tolerance);
  if (curve === undefined) return { curve: point, to, miss: Number.POSITIVE_INFINITY };
  return { curve, to, miss: offsetDeviation(source, curve, from, to) };
};

/** The handle lengths that bring the cubic nearest to the parallel; undefined where none points forward. */
const fitHandles = (
  s: Source,
  from: number,
  to: number,
  start: Point,
  end: Point,
  tolerance: number,
): Cubic | undefined => {
  const { dx: t0x, dy: t0y } = tangentAt(s, from);
  const { dx: t1x, dy: t1y } = tangentAt(s, to);
  const reach = Math.hypot(end.x - start.x, end.y - start.y);
  const third = (to - from) / 3;
  let a = parallelSpeed(s, from, to) * third;
  let b = parallelSpeed(s, to, from) * third;
  for (let round = 0; round < ROUNDS; round += 1) {
    if (!(a >= 0 && b >= 0 && a + b < 8 * reach)) return undefined;
    const h0x = start.x + a * t0x;
    const h0y = start.y + a * t0y;
    const h1x = end.x - b * t1x;
    const h1y = end.y - b * t1y;
    let aa = 0;
    let ab = 0;
    let bb = 0;
    let ar = 0;
    let br = 0;
    let worst = 0;
    for (const u of STATIONS) {
      const v = 1 - u;
      const b0 = v * v * v;
      const b1 = 3 * v * v * u;
      const b2 = 3 * v * u * u;
      const b3 = u * u * u;
      const x = b0 * start.x + b1 * h0x + b2 * h1x + b3 * end.x;
      const y = b0 * start.y + b1 * h0y + b2 * h1y + b3 * end.y;
      const foot = footNear(s, x, y, from + u * (to - from));
      if (Number.isNaN(foot)) return undefined;
      const dx = (3 * s.x3 * foot + 2 * s.x2) * foot + s.x1;
      const dy = (3 * s.y3 * foot + 2 * s.y2) * foot + s.y1;
      const speed = Math.sqrt(dx * dx + dy * dy);
      const px = x - (((s.x3 * foot + s.x2) * foot + s.x1) * foot + s.x0);
      const py = y - (((s.y3 * foot + s.y2) * foot + s.y1) * foot + s.y0);
      const miss = (px * dy - py * dx) / speed - s.distance;
      const da = (b1 * (t0x * dy - t0y * dx)) / speed;
      const db = (-b2 * (t1x * dy - t1y * dx)) / speed;
      aa += da * da;
      ab += da * db;
      bb += db * db;
      ar += da * miss;
      br += db * miss;
      if (miss > worst) worst = miss;
      else if (-miss > worst) worst = -miss;
    }
    if (worst < tolerance / 10) break;
    // A trace of damping: on a straight piece the handle lengths do not matter and must stay where they are.
    const damping = FIT_DAMPING * (aa + bb + FIT_DAMPING);
    aa += damping;
    bb += damping;
    const determinant = aa * bb - ab * ab;
    const stepA = (bb * ar - ab * br) / determinant;
    const stepB = (aa * br - ab * ar) / determinant;
    const most = reach / 3;
    a -= Math.max(-most, Math.min(most, stepA));
    b -= Math.max(-most, Math.min(most, stepB));
    if (Math.abs(stepA) + Math.abs(stepB) < FIT_SETTLED * reach) break;
  }
  if (!(a >= 0 && b >= 0)) return undefined;
  return cubic(start, { x: start.x + a * t0x, y: start.y + a * t0y }, { x: end.x - b * t1x, y: end.y - b * t1y }, end);
};

/** How fast the parallel runs at `t`, taken a little way towards `inward` where a handle of no length leaves no tangent. */
const parallelSpeed = (s: Source, t: number, inward: number): number => {
  const dx = (3 * s.x3 * t + 2 * s.x2) * t + s.x1;
  const dy = (3 * s.y3 * t + 2 * s.y2) * t + s.y1;
  const square = dx * dx + dy * dy;
  if (square < SAME_POINT * SAME_POINT) {
    const near = t + (inward - t) * 0.01;
    return near === t ? 0 : parallelSpeed(s, near, near);
  }
  return Math.max(0, forwardness(s, t) / square);
};

const tooTight = (): StaywrightError => new StaywrightError('impossible', 'the curve turns too sharply to be offset');
