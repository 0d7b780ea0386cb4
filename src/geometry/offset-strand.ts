import { between, point, type Point } from './point.ts';
import { vectorTo, type Vector } from './vector.ts';
import { forwardness, parallelAt, type Source } from './offset-source.ts';
import { SAME_POINT, STRANDS_MEET } from './tolerance.ts';

/**
 * A stretch of the offset before it is cut to length: the true parallel of a source between two parameters, or the straight
 * line that a corner adds. Strands stand in the order of the path.
 */
export interface Strand {
  readonly kind: 'parallel' | 'line';
  /** The source it is parallel to; for a line, the one whose run it belongs to. */
  readonly source: number;
  readonly from: number;
  readonly to: number;
  readonly start: Point;
  readonly end: Point;
  /** True where the next strand starts at its end. */
  readonly joined: boolean;
  /** The corner a line belongs to, and the sources that meet there, from one to the other, whose widths do not bind it. */
  readonly corner?: Corner;
}

export interface Corner {
  readonly at: Point;
  readonly first: number;
  readonly last: number;
  /** Both sides are offset by the same distance, so that the tip of the corner must keep clear of them as well. */
  readonly even: boolean;
  /** The line is no tangent carried on but a step from one width to another. */
  readonly step: boolean;
}

export const strandPoint = (strand: Strand, source: Source, t: number): Point => {
  const { from, to, start, end } = strand;
  if (t === from) return start;
  if (t === to) return end;
  if (strand.kind === 'line') return between(start, end, (t - from) / (to - from));
  return parallelAt(source, t);
};

const strandVelocity = (strand: Strand, source: Source, t: number): Vector => {
  if (strand.kind === 'line') return vectorTo(strand.start, strand.end);
  const dx = (3 * source.x3 * t + 2 * source.x2) * t + source.x1;
  const dy = (3 * source.y3 * t + 2 * source.y2) * t + source.y1;
  const square = dx * dx + dy * dy;
  const factor = forwardness(source, t) / (square * Math.sqrt(square) + Number.MIN_VALUE);
  return { dx: dx * factor, dy: dy * factor };
};

export interface StrandCrossing {
  readonly a: number;
  readonly b: number;
  readonly point: Point;
}

const MOST_STEPS = 24;
const TOUCHING = SAME_POINT / 5;

/**
 * Where two strands cross, by Newton from the parameters `a` and `b`, on the true parallels and not on their fits.
 * Undefined where the steps do not settle within both strands.
 */
export const crossStrands = (
  first: Strand,
  firstSource: Source,
  a: number,
  second: Strand,
  secondSource: Source,
  b: number,
): StrandCrossing | undefined => {
  let t = a;
  let u = b;
  for (let i = 0; i < MOST_STEPS; i += 1) {
    const p = rawPoint(first, firstSource, t);
    const q = rawPoint(second, secondSource, u);
    const wx = q.x - p.x;
    const wy = q.y - p.y;
    if (Math.abs(wx) + Math.abs(wy) < STRANDS_MEET)
      return { a: t, b: u, point: point((p.x + q.x) / 2, (p.y + q.y) / 2) };
    const v = strandVelocity(first, firstSource, t);
    const w = strandVelocity(second, secondSource, u);
    const determinant = v.dx * w.dy - v.dy * w.dx;
    const stepT = (wx * w.dy - wy * w.dx) / determinant;
    const stepU = (wx * v.dy - wy * v.dx) / determinant;
    if (!Number.isFinite(stepT) || !Number.isFinite(stepU)) return undefined;
    const nextT = clamp(t + stepT, first.from, first.to);
    const nextU = clamp(u + stepU, second.from, second.to);
    if (nextT === t && nextU === u) {
      // At an end of a strand, a miss too small to see still counts: strands that vanish into a point touch like that.
      if (Math.abs(wx) + Math.abs(wy) > TOUCHING) return undefined;
      return { a: t, b: u, point: point((p.x + q.x) / 2, (p.y + q.y) / 2) };
    }
    t = nextT;
    u = nextU;
  }
  return undefined;
};

const rawPoint = (strand: Strand, source: Source, t: number): Point =>
  strand.kind === 'line' ? between(strand.start, strand.end, t) : parallelAt(source, t);

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

/** The point of the path that a point of the strand was offset from; for a line, its corner. */
export const strandFoot = (strand: Strand, s: Source, t: number): Point =>
  strand.kind === 'line'
    ? strand.corner!.at
    : { x: ((s.x3 * t + s.x2) * t + s.x1) * t + s.x0, y: ((s.y3 * t + s.y2) * t + s.y1) * t + s.y0 };
