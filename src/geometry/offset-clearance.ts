/**
 * Clearance: a point of the offset stands where no part of the path is nearer than that part's own width. The path is laid out
 * as chords in a uniform grid, so that a question costs what lies near, however long the path is.
 */

import type { Point } from './point.ts';
import { gridOf, newLinks, setLink } from './offset-grid.ts';
import { footNear, type Source } from './offset-source.ts';
import type { Strand } from './offset-strand.ts';
import { CHORD_ERROR, CLEARANCE_SLACK, SAME_POINT } from './tolerance.ts';

const MOST_CHORDS = 400;
const SCAN = 8;

/** The point asked about: which source it belongs to, and the point of the path it was offset from. */
interface Asked {
  readonly source: number;
  readonly foot: Point;
  /** Sources that do not bind it, from `first` to `last` in path order, both included; none when undefined. */
  readonly free?: { readonly first: number; readonly last: number } | undefined;
  /** Settle doubts on the source itself and its neighbours too: slower, and needed only among loops. */
  readonly exact: boolean;
}

export interface Clearance {
  /** Whether the point is nearer to some source than that source's width, or lies across the path from its own foot. */
  readonly isTooNear: (p: Point, asked: Asked) => boolean;
}

/** The greatest second derivative of a source, which is greatest at an end. */
const bendOf = (s: Source): number =>
  s.straight ? 0 : Math.max(Math.hypot(2 * s.x2, 2 * s.y2), Math.hypot(6 * s.x3 + 2 * s.x2, 6 * s.y3 + 2 * s.y2));

/** The number of equal steps in t that keep the chords of a source within `error` of it. */
export const chordCount = (s: Source, error: number): number =>
  Math.min(MOST_CHORDS, Math.max(1, Math.ceil(Math.sqrt(bendOf(s) / (8 * error)))));

/**
 * The clearance of a path and of the mitres on its corners, `lines`: where an outward corner is carried on to its tip, all that
 * lies under the tip belongs to the offset, though it may be farther from the path than the width.
 */
export const clearanceOf = (sources: readonly Source[], closed: boolean, lines: readonly Strand[]): Clearance => {
  const count = sources.length;
  let total = 0;
  for (const s of sources) total += chordCount(s, CHORD_ERROR);
  const mitres = lines.filter((strand) => strand.kind === 'line' && strand.corner?.even);
  const links = newLinks(total + mitres.length);
  const { ax, ay, bx, by } = links;
  const owner = new Int32Array(total);
  const startT = new Float64Array(total);
  const stepT = new Float64Array(total);
  // Widths that bind at the two ends of a chord: at a corner of two widths the lesser of them.
  const startWidth = new Float64Array(total);
  const endWidth = new Float64Array(total);
  const stray = new Float64Array(count);
  let widest = 0;
  let uneven = false;
  for (let i = 0, c = 0; i < count; i += 1) {
    const s = sources[i]!;
    const n = chordCount(s, CHORD_ERROR);
    const width = Math.abs(s.distance);
    stray[i] = bendOf(s) / (8 * n * n);
    const before = closed || i > 0 ? sources[(i + count - 1) % count]!.distance : s.distance;
    const after = closed || i < count - 1 ? sources[(i + 1) % count]!.distance : s.distance;
    if (after !== s.distance) uneven = true;
    if (width > widest) widest = width;
    let x = s.x0;
    let y = s.y0;
    for (let k = 0; k < n; k += 1, c += 1) {
      const t = (k + 1) / n;
      ax[c] = x;
      ay[c] = y;
      x = ((s.x3 * t + s.x2) * t + s.x1) * t + s.x0;
      y = ((s.y3 * t + s.y2) * t + s.y1) * t + s.y0;
      bx[c] = x;
      by[c] = y;
      owner[c] = i;
      startT[c] = k / n;
      stepT[c] = 1 / n;
      startWidth[c] = k === 0 ? lesser(width, s.distance, before) : width;
      endWidth[c] = k === n - 1 ? lesser(width, s.distance, after) : width;
    }
  }
  for (const [m, { start, end }] of mitres.entries()) setLink(links, total + m, start, end);
  const { columns, first, held, column, row } = gridOf(links, widest);
  const reach = widest + CHORD_ERROR;

  /**
   * With widths that differ each chord binds only on its own side and straight across from it: a point beyond its end is its neighbour's, unless it is
   * beyond the neighbour's end too.
   */
  const isPassedOn = (c: number, along: number, x: number, y: number): boolean => {
    if (along >= 0 && along <= 1) return false;
    const other =
      along < 0 ? (c === 0 ? (closed ? total - 1 : -1) : c - 1) : c === total - 1 ? (closed ? 0 : -1) : c + 1;
    if (other < 0) return true;
    const ex = bx[other]! - ax[other]!;
    const ey = by[other]! - ay[other]!;
    return along < 0
      ? (x - bx[other]!) * ex + (y - by[other]!) * ey < 0
      : (x - ax[other]!) * ex + (y - ay[other]!) * ey > 0;
  };

  const isTooNear = (p: Point, asked: Asked): boolean => {
    const { x, y } = p;
    const own = asked.source;
    const side = sources[own]!.distance;
    const c0 = column(x - reach);
    const c1 = column(x + reach);
    const r0 = row(y - reach);
    const r1 = row(y + reach);
    for (let r = r0; r <= r1; r += 1) {
      const rowEnd = first[r * columns + c1 + 1]!;
      for (let h = first[r * columns + c0]!; h < rowEnd; h += 1) {
        const c = held[h]!;
        if (c >= total) {
          if (isUnder(mitres[c - total]!, x, y)) return true;
          continue;
        }
        const i = owner[c]!;
        const ex = bx[c]! - ax[c]!;
        const ey = by[c]! - ay[c]!;
        const px = x - ax[c]!;
        const py = y - ay[c]!;
        const along = (px * ex + py * ey) / (ex * ex + ey * ey);
        const source = sources[i]!;
        const binds = side === 0 ? source.distance !== 0 : source.distance * side > 0;
        if (binds && !(uneven && ((px * ey - py * ex) * source.distance < 0 || isPassedOn(c, along, x, y)))) {
          const clamped = along < 0 ? 0 : along > 1 ? 1 : along;
          const limit = along <= 0 ? startWidth[c]! : along >= 1 ? endWidth[c]! : Math.abs(source.distance);
          const dx = px - clamped * ex;
          const dy = py - clamped * ey;
          const square = dx * dx + dy * dy;
          // The chord may lie nearer or farther than the curve by as much as it strays from it.
          const doubt = stray[i]! + CLEARANCE_SLACK;
          const far = limit + stray[i]! - CLEARANCE_SLACK;
          if (square < far * far && !isFree(i, asked.free)) {
            if (limit > doubt && square < (limit - doubt) * (limit - doubt)) return true;
            const near = i === own || i === (own + 1) % count || own === (i + 1) % count;
            const unsettled = stray[i]! > 0 && (asked.exact || !near);
            if (unsettled && distanceNear(source, p, startT[c]!, stepT[c]!, clamped) < limit - CLEARANCE_SLACK)
              return true;
          }
        }
        if (uneven && i !== own && !isFree(i, asked.free) && crosses(asked.foot, p, ax[c]!, ay[c]!, bx[c]!, by[c]!))
          return true;
      }
    }
    return false;
  };
  return { isTooNear };
};

const isFree = (i: number, free: Asked['free']): boolean => {
  if (free === undefined) return false;
  return free.first <= free.last ? i >= free.first && i <= free.last : i >= free.first || i <= free.last;
};

const lesser = (width: number, own: number, other: number): number =>
  own * other > 0 ? Math.min(width, Math.abs(other)) : width;

/** The distance from `p` to the part of a source from `from` on by `step`, at most that at the fraction `along` of it. */
const distanceNear = (s: Source, p: Point, from: number, step: number, along: number): number => {
  let best = from + along * step;
  let least = distanceAt(s, p, best);
  let foot = footNear(s, p.x, p.y, best);
  if (Number.isNaN(foot)) {
    // Past a centre of curvature Newton would run to the farthest point: look along the part first.
    for (let k = 0; k <= SCAN; k += 1) {
      const t = from + (step * k) / SCAN;
      const away = distanceAt(s, p, t);
      if (away < least) [least, best] = [away, t];
    }
    foot = footNear(s, p.x, p.y, best);
  }
  return Number.isNaN(foot) ? least : Math.min(least, distanceAt(s, p, Math.min(1, Math.max(0, foot))));
};

const distanceAt = (s: Source, p: Point, t: number): number =>
  Math.hypot(((s.x3 * t + s.x2) * t + s.x1) * t + s.x0 - p.x, ((s.y3 * t + s.y2) * t + s.y1) * t + s.y0 - p.y);

/** Whether the way from `from` to `to` crosses the chord, ends left out by a hair: neighbours share their ends. */
const crosses = (from: Point, to: Point, ax: number, ay: number, bx: number, by: number): boolean => {
  const vx = to.x - from.x;
  const vy = to.y - from.y;
  const sideA = vx * (ay - from.y) - vy * (ax - from.x);
  const sideB = vx * (by - from.y) - vy * (bx - from.x);
  if (sideA * sideB > 0) return false;
  const ex = bx - ax;
  const ey = by - ay;
  const sideFrom = ex * (from.y - ay) - ey * (from.x - ax);
  const sideTo = ex * (to.y - ay) - ey * (to.x - ax);
  const hair = SAME_POINT * Math.hypot(ex, ey);
  return sideFrom * sideTo < 0 && Math.abs(sideFrom) > hair && Math.abs(sideTo) > hair;
};

/** Whether a point lies between a line of a mitre and the corner that it belongs to. */
const isUnder = ({ start, end, corner }: Strand, x: number, y: number): boolean => {
  const { at } = corner!;
  const ux = end.x - start.x;
  const uy = end.y - start.y;
  const whole = ux * (at.y - start.y) - uy * (at.x - start.x);
  const sign = whole < 0 ? -1 : 1;
  return (
    sign * (ux * (y - start.y) - uy * (x - start.x)) > CLEARANCE_SLACK * Math.hypot(ux, uy) &&
    sign * ((at.x - end.x) * (y - end.y) - (at.y - end.y) * (x - end.x)) > 0 &&
    sign * ((start.x - at.x) * (y - at.y) - (start.y - at.y) * (x - at.x)) > 0
  );
};
