/**
 * What becomes of the offset where two sources meet. The end tangents of the two parallels are carried on (mitre, outward)
 * or back (trim, inward) to where they cross. With two widths at one corner one side may be carried on and the other trimmed.
 */

import { StaywrightError } from '../errors.ts';
import { between, movePoint, type Point } from './point.ts';
import { cross, dot, leftNormal, scaled, vectorTo, type Vector } from './vector.ts';
import { sourceCurvature, type Source } from './offset-source.ts';
import { crossStrands, type Strand } from './offset-strand.ts';
import { trimAtCorner, wholeStrand } from './offset-trim.ts';
import { SLIGHT_TURN, SMOOTH_TURN, STRAIGHT_ENOUGH } from './tolerance.ts';

/** A parallel's end or start after the corner is made: on which source, at which parameter, where. */
interface Place {
  readonly source: number;
  readonly t: number;
  readonly point: Point;
}

export interface Joint {
  /** `meet`: the two share a point. `lines`: straight lines lead from `end` over `tips` to `start`. `apart`: they cross somewhere before. */
  readonly kind: 'meet' | 'lines' | 'apart';
  readonly end: Place;
  readonly start: Place;
  readonly tips: readonly Point[];
}

/** The longest mitre, in widths: corners down to 2 degrees. */
const LONGEST_MITRE = 60;
/** Where one side is carried on and the other trimmed, the crossing may lie this many widths away; past it, a step. */
const LONGEST_MIXED = 4;

/**
 * Joins the parallel of source `i` to that of the next one, `j`. `tight` also looks for the crossing of an inward corner on
 * these two; without it they stay apart, to be cut where they cross.
 */
export const joinAtCorner = (sources: readonly Source[], i: number, j: number, tight: boolean): Joint => {
  const a = sources[i]!;
  const b = sources[j]!;
  const ta = a.endTangent;
  const tb = b.startTangent;
  const corner = b.segment.start;
  const e = movePoint(corner, scaled(leftNormal(ta), a.distance));
  const f = movePoint(corner, scaled(leftNormal(tb), b.distance));
  const sine = cross(ta, tb);
  const cosine = dot(ta, tb);
  const even = a.distance === b.distance;
  const end = { source: i, t: 1, point: e };
  const start = { source: j, t: 0, point: f };
  if (even && a.distance === 0)
    return { kind: 'meet', end: { ...end, point: corner }, start: { ...start, point: corner }, tips: [] };
  if (Math.abs(sine) < SMOOTH_TURN) {
    if (cosine < 0 && sine * (a.distance + b.distance) >= 0) throw tooSharp(corner);
    if (cosine < 0) return { kind: 'apart', end, start, tips: [] };
    if (!even) return { kind: 'lines', end, start, tips: [] };
    const middle = between(e, f, 0.5);
    return { kind: 'meet', end: { ...end, point: middle }, start: { ...start, point: middle }, tips: [] };
  }
  const gap = vectorTo(e, f);
  const onward = cross(gap, tb) / sine;
  const backward = cross(ta, gap) / sine;
  const tip = movePoint(e, scaled(ta, onward));
  const slight = Math.abs(sine) < SLIGHT_TURN && cosine > 0;
  const endT = followed(a, 1, onward, slight);
  const startT = followed(b, 0, -backward, slight);
  if (endT !== undefined && startT !== undefined) {
    return {
      kind: 'meet',
      end: { source: i, t: endT, point: tip },
      start: { source: j, t: startT, point: tip },
      tips: [],
    };
  }
  const width = Math.max(Math.abs(a.distance), Math.abs(b.distance));
  if (onward >= 0 && backward >= 0) {
    if (Math.max(onward, backward) > LONGEST_MITRE * width) throw tooSharp(corner);
    return { kind: 'lines', end, start, tips: [tip] };
  }
  if (onward <= 0 && backward <= 0) {
    const trim = tight ? trimAtCorner(sources, i, j, -Math.min(onward, backward)) : undefined;
    if (trim === undefined) return { kind: 'apart', end, start, tips: [] };
    const { before, after, point } = trim;
    return { kind: 'meet', end: { ...before, point }, start: { ...after, point }, tips: [] };
  }
  return mixedCorner(
    sources,
    end,
    start,
    Math.max(Math.abs(onward), Math.abs(backward)) > LONGEST_MIXED * width,
    onward > 0,
  );
};

/** One side is carried on along its tangent until it meets the other, which is trimmed there; a step where it does not meet it. */
const mixedCorner = (sources: readonly Source[], end: Place, start: Place, far: boolean, carriesOn: boolean): Joint => {
  const count = sources.length;
  const step: Joint = { kind: 'lines', end, start, tips: [] };
  if (far) return step;
  const carried = carriesOn ? end : start;
  const other = carriesOn ? start : end;
  const from = sources[carried.source]!;
  const direction: Vector = carriesOn ? from.endTangent : scaled(from.startTangent, -1);
  const width = Math.max(Math.abs(from.distance), Math.abs(sources[other.source]!.distance));
  const ray: Strand = {
    kind: 'line',
    source: carried.source,
    from: 0,
    to: 1,
    start: carried.point,
    end: movePoint(carried.point, scaled(direction, LONGEST_MIXED * width)),
    joined: false,
  };
  const run = sources[other.source]!.run;
  for (let walked = 0; walked < count; walked += 1) {
    const k = (other.source + (carriesOn ? walked : count - walked)) % count;
    const candidate = sources[k]!;
    if (candidate.run !== run || k === carried.source) return step;
    const t = carriesOn ? 0 : 1;
    const crossing = crossStrands(ray, from, 0.25, wholeStrand(candidate, k), candidate, t);
    if (crossing === undefined) continue;
    const met = { source: k, t: crossing.b, point: crossing.point };
    return carriesOn
      ? { kind: 'lines', end, start: met, tips: [crossing.point] }
      : { kind: 'lines', end: met, start, tips: [crossing.point] };
  }
  return step;
};

/**
 * The parameter that the parallel reaches when its end tangent at `t` is followed for `length`, back if negative; undefined
 * where tangent and parallel part on the way. At a `slight` turn a straight line may be made longer or shorter by more.
 */
const followed = (s: Source, t: number, length: number, slight: boolean): number | undefined => {
  const curvature = s.straight ? 0 : sourceCurvature(s, t);
  const stretch = 1 + s.distance * curvature;
  const chord = Math.hypot(s.segment.end.x - s.segment.start.x, s.segment.end.y - s.segment.start.y);
  if (s.straight && !slight && Math.abs(length) > STRAIGHT_ENOUGH) return undefined;
  if (!(stretch > 0) || Math.abs(length) > chord / 4) return undefined;
  if ((Math.abs(curvature / stretch) * length * length) / 2 > STRAIGHT_ENOUGH) return undefined;
  const dx = (3 * s.x3 * t + 2 * s.x2) * t + s.x1;
  const dy = (3 * s.y3 * t + 2 * s.y2) * t + s.y1;
  const step = length / (Math.hypot(dx, dy) * stretch);
  return Math.abs(step) < 1 / 4 ? t + step : undefined;
};

const tooSharp = (at: Point): StaywrightError =>
  new StaywrightError('impossible', `the corner at (${at.x.toFixed(1)}, ${at.y.toFixed(1)}) is too sharp for a mitre`, {
    hint: 'blunt the corner, or offset its edges by less',
  });
