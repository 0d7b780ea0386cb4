import { segmentLength } from './arc-length.ts';
import { derivativeOn, pointOn, tangentOn } from './evaluate.ts';
import { fitCubic, type Curve } from './fit-cubics.ts';
import type { Path } from './path.ts';
import type { Point } from './point.ts';
import { line, type Segment } from './segment.ts';
import { CORNER_TURN, SAME_POINT } from './tolerance.ts';
import { endPathAt } from './trim-path.ts';
import { cross, dot, scaled, turn, unit, vectorTo } from './vector.ts';

/** Longer runs are not tried as one segment, so that the work grows with the path's length alone. */
const LONGEST_RUN = 64;

/** A run of segments as one curve over [0, 1], each segment's share of it in proportion to its length. */
const asCurve = (run: readonly Segment[]): Curve => {
  const ends = [0];
  for (const s of run) ends.push(ends.at(-1)! + segmentLength(s));
  const total = ends.at(-1)!;
  const find = (at: number): { s: Segment; t: number; rate: number } => {
    const after = ends.findIndex((end, i) => i > 0 && at * total <= end);
    const i = (after === -1 ? run.length : after) - 1;
    const span = ends[i + 1]! - ends[i]!;
    return { s: run[i]!, t: Math.min(1, Math.max(0, (at * total - ends[i]!) / span)), rate: total / span };
  };
  return {
    point: (at) => {
      const { s, t } = find(at);
      return pointOn(s, t);
    },
    derivative: (at) => {
      const { s, t, rate } = find(at);
      return scaled(derivativeOn(s, t), rate);
    },
  };
};

/** One straight line for straight segments that go steadily forward within the tolerance. */
const straightened = (run: readonly Segment[], tolerance: number): Segment | undefined => {
  const { start } = run[0]!;
  const { end } = run.at(-1)!;
  const along = unit(vectorTo(start, end));
  const off = (p: Point): number => Math.abs(cross(along, vectorTo(start, p)));
  const forward = run.every((s) => dot(along, vectorTo(s.start, s.end)) > 0 && off(s.end) <= tolerance);
  return forward ? line(start, end) : undefined;
};

const merged = (run: readonly Segment[], tolerance: number): Segment | undefined => {
  if (run.every((s) => s.kind === 'line')) return straightened(run, tolerance);
  const { cubic, error } = fitCubic(asCurve(run), 0, 1);
  return error <= tolerance ? cubic : undefined;
};

/** Without segments shorter than SAME_POINT; the one before, or for the first the one after, takes their place. */
const withoutPoints = (segments: readonly Segment[]): Segment[] => {
  let kept: Segment[] = [];
  for (const s of segments) {
    const previous = kept.at(-1);
    if (previous === undefined) kept = [s];
    else if (segmentLength(s) < SAME_POINT) kept = endPathAt({ segments: kept }, s.end).segments.slice();
    else if (kept.length === 1 && segmentLength(previous) < SAME_POINT) kept = [{ ...s, start: previous.start }];
    else kept.push(s);
  }
  return kept;
};

/**
 * The same curve to within `tolerance` millimetres with as few segments as a walk from start to end finds: segments of no length go,
 * and smoothly joined neighbours become one where one stays within the tolerance of them all. Ends, corners and end tangents stay;
 * segments that cannot be merged are the very same objects. A path that is one point stays so.
 */
export const simplifyPath = (path: Path, tolerance: number): Path => {
  const segments = withoutPoints(path.segments);
  const result: Segment[] = [];
  for (let i = 0; i < segments.length;) {
    let best = segments[i]!;
    let next = i + 1;
    while (next < segments.length && next - i < LONGEST_RUN) {
      const bend = turn(tangentOn(segments[next - 1]!, 1), tangentOn(segments[next]!, 0));
      if (Math.abs(bend) > CORNER_TURN) break;
      const one = merged(segments.slice(i, next + 1), tolerance);
      if (one === undefined) break;
      best = one;
      next += 1;
    }
    result.push(best);
    i = next;
  }
  return { segments: result };
};
