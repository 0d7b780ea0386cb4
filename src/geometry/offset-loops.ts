/**
 * Loops are cut by clearance: all crossings of the strands are found on a grid and polished, the strands are parted there, and of
 * the parts only those that keep clear of the whole path stay. What stays must be one line, closed as the path is.
 */

import { StaywrightError } from '../errors.ts';
import { chordCount, type Clearance } from './offset-clearance.ts';
import { gridOf, newLinks, setLink } from './offset-grid.ts';
import { footNear, sourceCurvature, type Source } from './offset-source.ts';
import { crossStrands, strandFoot, strandPoint, type Strand } from './offset-strand.ts';
import { distance, type Point } from './point.ts';
import { OFFSET_TOLERANCE, SAME_POINT } from './tolerance.ts';
import { dot, vectorTo } from './vector.ts';

/** Links are laid this near (mm) to the strands; crossings shallower than that are no loops that show. */
const LINK_ERROR = 0.01;
/** Two crossings of the same strands nearer than this (mm) are one. */
const SAME_CROSSING = SAME_POINT / 5;
/** A strand met by itself at parameters nearer than this is no crossing. */
const SAME_PLACE = 1e-7;
/** A clear part longer than this (mm) that the line does not pass is a part of its own. */
const LEFT_OVER = 0.1;
/** Ends nearer than this (mm) to the line that goes on count as on it: what two widths of the tolerance may be out. */
const TOUCHING = 2 * OFFSET_TOLERANCE;
/** How far from their ends, as parts of a strand, two that are not joined are tried for a crossing. */
const END_REACHES = [0, 0.02, 0.1, 0.4];
const CURVATURE_LOOKS = 8;
const CLEARANCE_LOOKS = [0.5, 0.25, 0.75, 0.1, 0.9];

interface Crossing {
  readonly point: Point;
  readonly first: number;
  readonly firstT: number;
  readonly second: number;
  readonly secondT: number;
}

interface Part {
  readonly strand: Strand;
  readonly index: number;
  readonly length: number;
  readonly clear: boolean;
  /** The parts that may follow, the best first. */
  readonly next: number[];
}

export const cutLoops = (
  strands: readonly Strand[],
  sources: readonly Source[],
  clearance: Clearance,
  closed: boolean,
): readonly Strand[] => {
  const parts = partsOf(strands, sources, clearance, crossingsOf(strands, sources));
  const passed = new Uint8Array(parts.length);
  let start = -1;
  for (const [i, part] of parts.entries()) {
    if (!part.clear) continue;
    if (start < 0 || (closed && part.length > parts[start]!.length)) start = i;
  }
  if (start < 0)
    throw new StaywrightError('impossible', 'nothing is left of the outline at this width', {
      hint: 'use a lesser width',
    });
  const line: Strand[] = [];
  let at: { readonly part: number; readonly from: number } | undefined = {
    part: start,
    from: parts[start]!.strand.from,
  };
  while (at !== undefined && passed[at.part] === 0) {
    const { strand, length } = parts[at.part]!;
    passed[at.part] = 1;
    if (length >= SAME_POINT)
      line.push(at.from === strand.from ? strand : enteredAt(strand, sources[strand.source]!, at.from));
    at = following(parts, sources, at.part, passed, start);
  }
  if (closed && at?.part === start && at.from !== parts[start]!.strand.from) {
    line[0] = enteredAt(line[0]!, sources[line[0]!.source]!, at.from);
  }
  const whole = closed
    ? at?.part === start
    : start === 0 && line[line.length - 1]!.end === strands[strands.length - 1]!.end;
  if (!whole)
    throw new StaywrightError('impossible', 'the offset does not close at this width', { hint: 'use a lesser width' });
  const left = parts.filter((part, i) => part.clear && passed[i] === 0 && part.length > LEFT_OVER);
  if (left.some((part) => !liesOn(part.strand, line, sources))) {
    throw new StaywrightError('impossible', 'the outline falls apart into several at this width', {
      hint: 'use a lesser width',
    });
  }
  return inOrder(merged(line), closed);
};

/**
 * The part that follows, and the parameter where it is entered: a clear one at the crossing, else the clear one that passes nearest,
 * within what a width may be out. Parallels that ran into each other at a slight angle touch like that once they are run back.
 */
const following = (
  parts: readonly Part[],
  sources: readonly Source[],
  at: number,
  passed: Uint8Array,
  start: number,
): { readonly part: number; readonly from: number } | undefined => {
  const { next, strand } = parts[at]!;
  const isOpen = (i: number): boolean => parts[i]!.clear && (passed[i] === 0 || i === start);
  const through = next.find(isOpen);
  if (through !== undefined) return { part: through, from: parts[through]!.strand.from };
  let best: { readonly part: number; readonly from: number } | undefined;
  let least = TOUCHING;
  for (const [i, part] of parts.entries()) {
    if (i === at || !isOpen(i)) continue;
    const from = nearestOn(part.strand, sources[part.strand.source]!, strand.end);
    const away = distance(strandPoint(part.strand, sources[part.strand.source]!, from), strand.end);
    if (away < least) [best, least] = [{ part: i, from }, away];
  }
  return best;
};

/** The parameter of the strand nearest to a point, among its start and where it is square to the way there. */
const nearestOn = (strand: Strand, source: Source, p: Point): number => {
  const { from, to, start, end } = strand;
  if (distance(start, p) < SAME_POINT) return from;
  if (strand.kind === 'line') {
    const way = vectorTo(start, end);
    const along = dot(vectorTo(start, p), way) / dot(way, way);
    return along > 0 && along < 1 ? from + along * (to - from) : from;
  }
  let best = from;
  for (let k = 0; k <= CURVATURE_LOOKS; k += 1) {
    const t = footNear(source, p.x, p.y, from + ((to - from) * k) / CURVATURE_LOOKS);
    if (!(t > from && t < to)) continue;
    if (distance(strandPoint(strand, source, t), p) < distance(strandPoint(strand, source, best), p)) best = t;
  }
  return best;
};

/** Whether a strand runs along the line that was found: two walls that meet are passed once. */
const liesOn = (strand: Strand, line: readonly Strand[], sources: readonly Source[]): boolean => {
  const middle = strandPoint(strand, sources[strand.source]!, (strand.from + strand.to) / 2);
  return line.some((other) => {
    const source = sources[other.source]!;
    return distance(strandPoint(other, source, nearestOn(other, source, middle)), middle) < TOUCHING;
  });
};

const enteredAt = (strand: Strand, source: Source, from: number): Strand => ({
  ...strand,
  from,
  start: strandPoint(strand, source, from),
});

/** Parts that follow each other on one strand, put together again. */
const merged = (line: readonly Strand[]): Strand[] => {
  const whole: Strand[] = [];
  for (const strand of line) {
    const last = whole[whole.length - 1];
    if (last !== undefined && goesOn(last, strand))
      whole[whole.length - 1] = { ...last, to: strand.to, end: strand.end };
    else whole.push(strand);
  }
  if (whole.length > 1 && goesOn(whole[whole.length - 1]!, whole[0]!)) {
    const last = whole.pop()!;
    whole[0] = { ...whole[0]!, from: last.from, start: last.start };
  }
  return whole;
};

const goesOn = (a: Strand, b: Strand): boolean =>
  a.kind === b.kind && a.source === b.source && a.corner === b.corner && a.to === b.from && a.end === b.start;

/** From the first source on; the line must pass the sources in their order. */
const inOrder = (line: readonly Strand[], closed: boolean): readonly Strand[] => {
  const places = line.map((strand) => strand.source);
  const first = closed ? places.findIndex((place, i) => place < places.at(i - 1)!) : 0;
  const turned = first > 0 ? [...line.slice(first), ...line.slice(0, first)] : line;
  if (turned.some((strand, i) => i > 0 && strand.source < turned[i - 1]!.source)) {
    throw new StaywrightError('impossible', 'the outline crosses itself at this width', { hint: 'use a lesser width' });
  }
  return turned;
};

const crossingsOf = (strands: readonly Strand[], sources: readonly Source[]): readonly Crossing[] => {
  const counts = strands.map((strand) => linkCount(strand, sources[strand.source]!));
  const total = counts.reduce((sum, n) => sum + n, 0);
  const links = newLinks(total);
  const owner = new Int32Array(total);
  const place = new Int32Array(total);
  for (let i = 0, link = 0; i < strands.length; i += 1) {
    const strand = strands[i]!;
    let a = strand.start;
    for (let k = 0; k < counts[i]!; k += 1, link += 1) {
      const b = strandPoint(strand, sources[strand.source]!, linkEnd(strand, counts[i]!, k + 1));
      setLink(links, link, a, b);
      owner[link] = i;
      place[link] = k;
      a = b;
    }
  }
  const { ax, ay, bx, by } = links;
  const grid = gridOf(links, 0);
  const found: Crossing[] = [];
  const meet = (p: number, q: number): void => {
    const i = owner[p]!;
    const j = owner[q]!;
    if (i === j && Math.abs(place[p]! - place[q]!) <= 1) return;
    if (strands[i]!.joined && (i + 1) % strands.length === j && place[p] === counts[i]! - 1 && place[q] === 0) return;
    if (strands[j]!.joined && (j + 1) % strands.length === i && place[q] === counts[j]! - 1 && place[p] === 0) return;
    const vx = bx[p]! - ax[p]!;
    const vy = by[p]! - ay[p]!;
    const wx = bx[q]! - ax[q]!;
    const wy = by[q]! - ay[q]!;
    const ox = ax[q]! - ax[p]!;
    const oy = ay[q]! - ay[p]!;
    const determinant = vx * wy - vy * wx;
    const t = (ox * wy - oy * wx) / determinant;
    const u = (ox * vy - oy * vx) / determinant;
    if (!(t >= -1e-6 && t <= 1 + 1e-6 && u >= -1e-6 && u <= 1 + 1e-6)) return;
    const [first, second] = [strands[i]!, strands[j]!];
    const a = linkEnd(first, counts[i]!, place[p]! + Math.min(1, Math.max(0, t)));
    const b = linkEnd(second, counts[j]!, place[q]! + Math.min(1, Math.max(0, u)));
    polish(i, a, j, b);
  };
  /** Polishes a crossing; one that slides off the end of a strand is looked for on the strand joined there. */
  const polish = (i: number, a: number, j: number, b: number): void => {
    if (polishOn(i, a, j, b)) return;
    const [onFirst, onSecond] = [beside(i, a), beside(j, b)];
    for (const [k, c] of onFirst) if (polishOn(k, c, j, b)) return;
    for (const [l, e] of onSecond) if (polishOn(i, a, l, e)) return;
    for (const [k, c] of onFirst) for (const [l, e] of onSecond) if (polishOn(k, c, l, e)) return;
  };
  /** The strands joined to one at either end, if the parameter lies near that end, each at the end where it is joined. */
  const beside = (i: number, t: number): (readonly [number, number])[] => {
    const strand = strands[i]!;
    const along = (t - strand.from) / (strand.to - strand.from);
    const before = (i + strands.length - 1) % strands.length;
    const after = (i + 1) % strands.length;
    const ends: (readonly [number, number])[] = [];
    if (along <= END_REACHES[2]! && strands[before]!.joined) ends.push([before, strands[before]!.to]);
    if (along >= 1 - END_REACHES[2]! && strand.joined) ends.push([after, strands[after]!.from]);
    return ends;
  };
  const polishOn = (p: number, pt: number, q: number, qt: number): boolean => {
    const [i, a, j, b] = p <= q ? [p, pt, q, qt] : [q, qt, p, pt];
    const [first, second] = [strands[i]!, strands[j]!];
    const crossing = crossStrands(first, sources[first.source]!, a, second, sources[second.source]!, b);
    if (crossing === undefined || (i === j && Math.abs(crossing.a - crossing.b) < SAME_PLACE)) return false;
    // Where two strands are joined they meet, and do not cross.
    if (first.joined && j === (i + 1) % strands.length && crossing.a === first.to && crossing.b === second.from)
      return false;
    if (second.joined && i === (j + 1) % strands.length && crossing.b === second.to && crossing.a === first.from)
      return false;
    const known = found.some(
      (c) => c.first === i && c.second === j && distance(c.point, crossing.point) < SAME_CROSSING,
    );
    if (!known) found.push({ point: crossing.point, first: i, firstT: crossing.a, second: j, secondT: crossing.b });
    return true;
  };
  // Where the line is broken its ends cross near by, often too shallowly for links to show.
  for (const [i, strand] of strands.entries()) {
    const j = (i + 1) % strands.length;
    if (strand.joined || i === j) continue;
    const next = strands[j]!;
    for (const reach of END_REACHES) {
      const a = strand.to - reach * (strand.to - strand.from);
      const b = next.from + reach * (next.to - next.from);
      polish(i, a, j, b);
    }
  }
  for (let p = 0; p < total; p += 1) {
    const p0 = grid.column(Math.min(ax[p]!, bx[p]!));
    const p1 = grid.column(Math.max(ax[p]!, bx[p]!));
    const r0 = grid.row(Math.min(ay[p]!, by[p]!));
    const r1 = grid.row(Math.max(ay[p]!, by[p]!));
    for (let r = r0; r <= r1; r += 1) {
      for (let c = p0; c <= p1; c += 1) {
        const cell = r * grid.columns + c;
        for (let h = grid.first[cell]!; h < grid.first[cell + 1]!; h += 1) {
          const q = grid.held[h]!;
          if (q <= p) continue;
          // Two links may share several cells: they are compared in the first of them alone.
          if (c !== Math.max(p0, grid.column(Math.min(ax[q]!, bx[q]!)))) continue;
          if (r !== Math.max(r0, grid.row(Math.min(ay[q]!, by[q]!)))) continue;
          meet(p, q);
        }
      }
    }
  }
  return found;
};

const linkEnd = (strand: Strand, count: number, k: number): number =>
  k === count ? strand.to : strand.from + ((strand.to - strand.from) * k) / count;

/** How many links keep near the strand; the parallel of a tight turn is longer than the turn. */
const linkCount = (strand: Strand, source: Source): number => {
  if (strand.kind === 'line' || source.straight) return 1;
  let longest = 1;
  for (let k = 0; k <= CURVATURE_LOOKS; k += 1) {
    const t = strand.from + ((strand.to - strand.from) * k) / CURVATURE_LOOKS;
    longest = Math.max(longest, 1 + source.distance * sourceCurvature(source, t));
  }
  return Math.max(1, Math.ceil(chordCount(source, LINK_ERROR / Math.min(longest, 100)) * (strand.to - strand.from)));
};

const partsOf = (
  strands: readonly Strand[],
  sources: readonly Source[],
  clearance: Clearance,
  crossings: readonly Crossing[],
): readonly Part[] => {
  const cuts: { readonly t: number; readonly crossing: number }[][] = strands.map(() => []);
  for (const [crossing, c] of crossings.entries()) {
    cuts[c.first]!.push({ t: c.firstT, crossing });
    cuts[c.second]!.push({ t: c.secondT, crossing });
  }
  const parts: Part[] = [];
  const firstOf: number[] = [];
  const startingAt: number[][] = crossings.map(() => []);
  const endingAt: number[][] = crossings.map(() => []);
  for (const [index, strand] of strands.entries()) {
    const sorted = cuts[index]!.toSorted((a, b) => a.t - b.t);
    firstOf.push(parts.length);
    let from = strand.from;
    let start = strand.start;
    for (const cut of [...sorted, undefined]) {
      const to = cut?.t ?? strand.to;
      const end = cut === undefined ? strand.end : crossings[cut.crossing]!.point;
      const piece: Strand = { ...strand, from, to, start, end };
      const middle = strandPoint(strand, sources[strand.source]!, (from + to) / 2);
      const length = distance(start, middle) + distance(middle, end);
      if (cut !== undefined) {
        endingAt[cut.crossing]!.push(parts.length);
        startingAt[cut.crossing]!.push(parts.length + 1);
      }
      parts.push({
        strand: piece,
        index,
        length,
        clear: isClear(piece, strand, sources, clearance),
        next: [],
      });
      from = to;
      start = end;
    }
  }
  // At a crossing the other strand is the way on: straight on is only right where the two merely touch.
  for (const [k, ending] of endingAt.entries()) {
    for (const i of ending) parts[i]!.next.push(...startingAt[k]!.filter((j) => j !== i + 1), i + 1);
  }
  for (const [index, strand] of strands.entries()) {
    const last = (firstOf[index + 1] ?? parts.length) - 1;
    if (strand.joined) parts[last]!.next.push(firstOf[(index + 1) % strands.length]!);
  }
  return parts;
};

/** Looked at in several places: between two crossings a part is clear everywhere or nowhere. */
const isClear = (piece: Strand, whole: Strand, sources: readonly Source[], clearance: Clearance): boolean => {
  const source = sources[piece.source]!;
  const free = piece.corner !== undefined && !piece.corner.even ? piece.corner : undefined;
  return CLEARANCE_LOOKS.every((look) => {
    const t = piece.from + (piece.to - piece.from) * look;
    return !clearance.isTooNear(strandPoint(whole, source, t), {
      source: piece.source,
      foot: strandFoot(piece, source, t),
      free,
      exact: true,
    });
  });
};
