/**
 * One seam turning into that of another version over a stretch of heights: at each height y of this seam the result lies at
 * ((1 - w) x_this + w x_other, y + w lift). As w is flat at its ends, the curve leaves each of its sources along that one's tangent.
 */

import { extremaOf } from '../../geometry/box.ts';
import { derivativeOn, pointOn, tangentOn } from '../../geometry/evaluate.ts';
import { fitCubics, type Curve } from '../../geometry/fit-cubics.ts';
import { crossHorizontal } from '../../geometry/intersect.ts';
import { pathEnd, pathStart, type Location, type Path } from '../../geometry/path.ts';
import { distance, type Point } from '../../geometry/point.ts';
import type { Segment } from '../../geometry/segment.ts';
import { subPath } from '../../geometry/sub-path.ts';
import {
  BREAK_NEAR_NODE,
  CRUMB,
  REFIT_TOLERANCE,
  SAME_PARAMETER,
  SAME_POINT,
  STILL,
} from '../../geometry/tolerance.ts';
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

interface Cuts {
  /** The cuts on this seam and on the other, from the top down. */
  readonly mine: readonly [Location, Location];
  readonly other: readonly [Location, Location];
}

export interface Mixed extends Cuts {
  /** Downwards, from a point of the one seam to a point of the other. */
  readonly path: Path;
  /** True where the two seams are one over the whole stretch, so that nothing needs fitting. */
  readonly same: boolean;
}

const TURNS_BACK = 'turns back on itself in the blend';

/** Whether two paths that run down are one curve, whatever their nodes. */
const isSameCurve = (a: Path, b: Path): boolean => {
  const [top, bottom] = [pathStart(a).y, pathEnd(a).y];
  if (Math.abs(pathStart(b).y - top) > SAME_POINT || Math.abs(pathEnd(b).y - bottom) > SAME_POINT) return false;
  return Array.from({ length: LOOKS + 1 }, (_, i) => top + ((bottom - top) * i) / LOOKS).every(
    (y) => Math.abs(atHeight(segmentAt(a, y), y).x - atHeight(segmentAt(b, y), y).x) < SAME_POINT,
  );
};

const isBefore = (one: Location, next: Location): boolean => one.segment + one.t < next.segment + next.t;

const reaches = (path: Path, y: number): boolean => crossHorizontal(path, y).length > 0;

/** Where both seams pass the ends of a stretch, or why they do not. */
const cutBoth = (mine: Path, other: Path, { from, to }: Mix, there: (y: number) => number): Cuts | string => {
  const [a0, a1] = [cutAt(mine, from), cutAt(mine, to)];
  const [b0, b1] = [cutAt(other, there(from)), cutAt(other, there(to))];
  if (a0 && a1 && b0 && b1) {
    return isBefore(a0, a1) && isBefore(b0, b1) ? { mine: [a0, a1], other: [b0, b1] } : TURNS_BACK;
  }
  const reach = [from, to].every((y) => reaches(mine, y) && reaches(other, there(y)));
  return reach ? TURNS_BACK : 'ends before the blend does';
};

/** Whether heights keep their order all over a stretch: those of the other, and those of the result. */
const keepsOrder = ({ weight, lift }: SplicePlan, top: number, bottom: number): boolean =>
  Array.from({ length: LOOKS + 1 }, (_, i) => top + ((bottom - top) * i) / LOOKS).every((y) => {
    const rise = weight.slope(y) * lift.value(y) + weight.value(y) * lift.slope(y);
    return 1 + lift.slope(y) > 0 && 1 + rise > 0;
  });

/** The mean of two segments that run down side by side, at a height of the first and between the heights `high` and `low`. */
const meanOf = (mine: Segment, other: Segment, { weight, lift }: SplicePlan, high: number, low: number): Curve => {
  const span = low - high;
  const at = (t: number) => {
    const y = high + span * t;
    return { y, w: weight.value(y), d: lift.value(y), p: atHeight(mine, y), q: atHeight(other, y + lift.value(y)) };
  };
  return {
    point: (t) => {
      const { y, w, d, p, q } = at(t);
      return { x: (1 - w) * p.x + w * q.x, y: y + w * d };
    },
    derivative: (t) => {
      const { y, w, d, p, q } = at(t);
      const dx = (1 - w) * p.slope + w * q.slope * (1 + lift.slope(y)) + weight.slope(y) * (q.x - p.x);
      const dy = 1 + weight.slope(y) * d + w * lift.slope(y);
      return { dx: dx * span, dy: dy * span };
    },
  };
};

/**
 * One stretch of a blend between two seams that run downwards, fitted to REFIT_TOLERANCE with a node wherever one of the two has one;
 * or why there is none, in words that follow `a seam that`: one of them is not there all along, or turns back on itself.
 */
export const mixSeams = (mine: Path, other: Path, mix: Mix, plan: SplicePlan): Mixed | string => {
  const there = (y: number): number => y + plan.lift.value(y);
  const cuts = cutBoth(mine, other, mix, there);
  if (typeof cuts === 'string') return cuts;
  const [a, b] = [subPath(mine, ...cuts.mine), subPath(other, ...cuts.other)];
  if (!runsDown(a) || !runsDown(b)) return TURNS_BACK;
  if (isSameCurve(a, b)) return { path: a, ...cuts, same: true };

  const here = (y: number): number => solveRising(there, y, mix.from - BREAK_NEAR_NODE, mix.to + BREAK_NEAR_NODE);
  const fromMine = plan.weight.value(mix.from) === 0;
  const [top, bottom] = fromMine ? [pathStart(a).y, here(pathEnd(b).y)] : [here(pathStart(b).y), pathEnd(a).y];
  if (!keepsOrder(plan, top, bottom)) return 'would fold in the blend, as levels lie too differently in the two';
  const breaks = [
    ...a.segments.slice(1).map(({ start }) => start.y),
    ...b.segments.slice(1).map(({ start }) => here(start.y)),
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
    const mean = meanOf(segmentAt(a, middle), segmentAt(b, there(middle)), plan, high, low);
    const start = segments.at(-1)?.end ?? pathStart(fromMine ? a : b);
    const end = low === bottom ? pathEnd(fromMine ? b : a) : mean.point(1);
    const point = (t: number): Point => (t === 0 ? start : t === 1 ? end : mean.point(t));
    segments.push(...fitCubics({ ...mean, point }, 0, 1, REFIT_TOLERANCE));
  }
  return { path: { segments }, ...cuts, same: false };
};
