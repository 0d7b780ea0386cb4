/**
 * One seam turning into that of another version over a stretch of heights: at each height y of this seam the result lies at
 * ((1 - w) x_this + w x_other, y + w lift). As w is flat at its ends, the curve leaves each of its sources along that one's tangent.
 */

import { extremaOf } from '../geometry/box.ts';
import { derivativeOn, pointOn, tangentOn } from '../geometry/evaluate.ts';
import { fitCubics } from '../geometry/fit-cubics.ts';
import { crossHorizontal } from '../geometry/intersect.ts';
import { pathEnd, pathStart, type Location, type Path } from '../geometry/path.ts';
import { distance, type Point } from '../geometry/point.ts';
import type { Segment } from '../geometry/segment.ts';
import { subPath } from '../geometry/sub-path.ts';
import { BREAK_NEAR_NODE, CRUMB, REFIT_TOLERANCE, SAME_PARAMETER, SAME_POINT, STILL } from '../geometry/tolerance.ts';
import type { Mix, SplicePlan } from './splice-plan.ts';

/** Halvings of an interval until numbers of this size end. */
const HALVINGS = 60;

/** Places at which two curves are compared, and at which a fold is looked for. */
const LOOKS = 64;

/** The place where a rising function reaches a value, between two places round it. */
const solveRising = (f: (at: number) => number, value: number, low: number, high: number): number => {
  let [a, b] = [low, high];
  for (let i = 0; i < HALVINGS; i += 1) {
    const middle = (a + b) / 2;
    if (f(middle) < value) a = middle;
    else b = middle;
  }
  return (a + b) / 2;
};

/** The one place where a seam, run downwards, passes a height: a node that is all but there, or else inside a segment. */
const cutAt = (path: Path, y: number): Location | undefined => {
  const crossings = crossHorizontal(path, y).map(({ location }) => location);
  const last = path.segments.length - 1;
  if (crossings.length === 0) {
    if (Math.abs(pathStart(path).y - y) < BREAK_NEAR_NODE) return { segment: 0, t: 0 };
    if (Math.abs(pathEnd(path).y - y) < BREAK_NEAR_NODE) return { segment: last, t: 1 };
  }
  const [only, ...more] = crossings;
  if (!only || more.length > 0) return undefined;
  const segment = path.segments[only.segment]!;
  const at = pointOn(segment, only.t);
  if (distance(at, segment.start) < BREAK_NEAR_NODE) return { segment: only.segment, t: 0 };
  if (distance(at, segment.end) < BREAK_NEAR_NODE) return { segment: only.segment, t: 1 };
  return only;
};

/** Whether a path runs down all the way, never level and never back. */
const runsDown = (path: Path): boolean =>
  path.segments.every(
    (s) => s.end.y > s.start.y && extremaOf(s).y.every((t) => t <= SAME_PARAMETER || t >= 1 - SAME_PARAMETER),
  );

/** The parameter at which a segment that runs down is at a height: Newton's steps, kept between two parameters round the place. */
const parameterAt = (s: Segment, y: number): number => {
  const span = s.end.y - s.start.y;
  let [low, high, t] = [0, 1, Math.min(1, Math.max(0, (y - s.start.y) / span))];
  if (s.kind === 'line') return t;
  for (let i = 0; i < HALVINGS; i += 1) {
    const off = pointOn(s, t).y - y;
    if (off < 0) low = t;
    else high = t;
    const next = t - off / derivativeOn(s, t).dy;
    const tried = next > low && next < high ? next : (low + high) / 2;
    if (Math.abs(tried - t) < STILL) return tried;
    t = tried;
  }
  return t;
};

/** Place and slope (sideways for each millimetre down) of a segment that runs down, at a height; beyond its ends, those of the end. */
const atHeight = (s: Segment, y: number): { readonly x: number; readonly slope: number } => {
  const t = y <= s.start.y ? 0 : y >= s.end.y ? 1 : parameterAt(s, y);
  const { dx, dy } = tangentOn(s, t);
  return { x: pointOn(s, t).x, slope: dy > 0 ? dx / dy : (s.end.x - s.start.x) / (s.end.y - s.start.y) };
};

const segmentAt = (path: Path, y: number): Segment =>
  path.segments.find(({ end }) => end.y > y) ?? path.segments.at(-1)!;

export interface Mixed {
  /** Downwards, from a point of the one seam to a point of the other. */
  readonly path: Path;
  /** The cuts on this seam and on the other, from the top down. */
  readonly mine: readonly [Location, Location];
  readonly other: readonly [Location, Location];
  /** True where the two seams are one over the whole stretch, so that nothing needs fitting. */
  readonly same: boolean;
}

const isSameCurve = (a: Path, b: Path): boolean => {
  const [top, bottom] = [pathStart(a).y, pathEnd(a).y];
  if (Math.abs(pathStart(b).y - top) > SAME_POINT || Math.abs(pathEnd(b).y - bottom) > SAME_POINT) return false;
  return Array.from({ length: LOOKS + 1 }, (_, i) => top + ((bottom - top) * i) / LOOKS).every(
    (y) => Math.abs(atHeight(segmentAt(a, y), y).x - atHeight(segmentAt(b, y), y).x) < SAME_POINT,
  );
};

/**
 * One stretch of a blend between two seams that run downwards, fitted to REFIT_TOLERANCE with a node wherever one of the two has one;
 * or why there is none, in words that follow `a seam that`: one of them is not there all along, or turns back on itself.
 */
export const mixSeams = (mine: Path, other: Path, { from, to }: Mix, plan: SplicePlan): Mixed | string => {
  const { weight, lift } = plan;
  const there = (y: number): number => y + lift.value(y);
  const cuts = [cutAt(mine, from), cutAt(mine, to), cutAt(other, there(from)), cutAt(other, there(to))];
  if (cuts.includes(undefined)) {
    const within = [from, to].every(
      (y) => crossHorizontal(mine, y).length > 0 && crossHorizontal(other, there(y)).length > 0,
    );
    return within ? 'turns back on itself in the blend' : 'ends before the blend does';
  }
  const [a0, a1, b0, b1] = cuts as [Location, Location, Location, Location];
  const isCut = (one: Location, next: Location): boolean => one.segment + one.t < next.segment + next.t;
  if (!isCut(a0, a1) || !isCut(b0, b1)) return 'turns back on itself in the blend';
  const [a, b] = [subPath(mine, a0, a1), subPath(other, b0, b1)];
  if (!runsDown(a) || !runsDown(b)) return 'turns back on itself in the blend';
  const ends = { mine: [a0, a1], other: [b0, b1] } as const;
  if (isSameCurve(a, b)) return { path: a, ...ends, same: true };

  const back = (y: number): number => solveRising(there, y, from - BREAK_NEAR_NODE, to + BREAK_NEAR_NODE);
  const fromMine = weight.value(from) === 0;
  const [top, bottom] = fromMine ? [pathStart(a).y, back(pathEnd(b).y)] : [back(pathStart(b).y), pathEnd(a).y];
  const slopes = Array.from({ length: LOOKS + 1 }, (_, i) => {
    const y = top + ((bottom - top) * i) / LOOKS;
    return Math.min(1 + lift.slope(y), 1 + weight.slope(y) * lift.value(y) + weight.value(y) * lift.slope(y));
  });
  if (slopes.some((slope) => slope <= 0)) return 'would fold in the blend, as levels lie too differently in the two';

  const pointAt = (y: number, s: Segment, r: Segment): Point => {
    const w = weight.value(y);
    return { x: (1 - w) * atHeight(s, y).x + w * atHeight(r, there(y)).x, y: y + w * lift.value(y) };
  };
  const breaks = [
    ...a.segments.slice(1).map(({ start }) => start.y),
    ...b.segments.slice(1).map(({ start }) => back(start.y)),
    ...plan.liftBreaks,
  ]
    .filter((y) => y > top + CRUMB && y < bottom - CRUMB)
    .toSorted((p, q) => p - q)
    .filter((y, i, all) => i === 0 || y - all[i - 1]! > CRUMB);
  const stops = [top, ...breaks, bottom];
  const segments: Segment[] = [];
  for (const [i, high] of stops.slice(0, -1).entries()) {
    const low = stops[i + 1]!;
    const middle = (high + low) / 2;
    const [s, r] = [segmentAt(a, middle), segmentAt(b, there(middle))];
    const start = segments.at(-1)?.end ?? pathStart(fromMine ? a : b);
    const end = i === stops.length - 2 ? pathEnd(fromMine ? b : a) : pointAt(low, s, r);
    const curve = {
      point: (t: number): Point => (t === 0 ? start : t === 1 ? end : pointAt(high + (low - high) * t, s, r)),
      derivative: (t: number) => {
        const y = high + (low - high) * t;
        const [w, rate] = [weight.value(y), weight.slope(y)];
        const [p, q] = [atHeight(s, y), atHeight(r, there(y))];
        const dx = (1 - w) * p.slope + w * q.slope * (1 + lift.slope(y)) + rate * (q.x - p.x);
        const dy = 1 + rate * lift.value(y) + w * lift.slope(y);
        return { dx: dx * (low - high), dy: dy * (low - high) };
      },
    };
    segments.push(...fitCubics(curve, 0, 1, REFIT_TOLERANCE));
  }
  return { path: { segments }, ...ends, same: false };
};
