/**
 * Loops are cut by clearance: all crossings of the strands are found on a grid and polished, the strands are parted there, and of
 * the parts only those that keep clear of the whole path stay. What stays must be one line, closed as the path is.
 */

import { StaywrightError } from '../errors.ts';
import type { Clearance } from './offset-clearance.ts';
import { strandCrossings } from './offset-crossings.ts';
import { strandParts, type StrandPart } from './offset-parts.ts';
import { footNear, type Source } from './offset-source.ts';
import { strandPoint, type Strand } from './offset-strand.ts';
import { distance, type Point } from './point.ts';
import { LEFT_OVER, OFFSET_TOUCH, SAME_POINT } from './tolerance.ts';
import { dot, vectorTo } from './vector.ts';

/** From how many places along a strand its nearest point is looked for. */
const LOOKS = 8;

/**
 * The one line that is left of the strands, from the first source on. Throws `impossible` where none is left, it does not close, or
 * more than one is.
 */
export const cutLoops = (
  strands: readonly Strand[],
  sources: readonly Source[],
  clearance: Clearance,
  closed: boolean,
): readonly Strand[] => {
  const parts = strandParts(strands, sources, clearance, strandCrossings(strands, sources));
  const passed = new Uint8Array(parts.length);
  let start = -1;
  for (const [i, part] of parts.entries()) {
    if (!part.clear) continue;
    if (start < 0 || (closed && part.length > parts[start]!.length)) start = i;
  }
  if (start < 0) throw tooWide('nothing is left of the outline');
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
  if (!whole) throw unclear('the parallel does not close');
  // A step from one width to another bounds nothing by itself.
  const left = parts.filter(
    (part, i) => part.clear && passed[i] === 0 && part.length > LEFT_OVER && !part.strand.corner?.step,
  );
  if (left.some((part) => !liesOn(part.strand, line, sources))) {
    throw tooWide('the outline falls apart into several');
  }
  return inOrder(merged(line), closed);
};

/**
 * The part that follows, and the parameter where it is entered: a clear one at the crossing, else the clear one that passes nearest,
 * within what a width may be out. Parallels that ran into each other at a slight angle touch like that once they are run back.
 */
const following = (
  parts: readonly StrandPart[],
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
  let least = OFFSET_TOUCH;
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
  for (let k = 0; k <= LOOKS; k += 1) {
    const t = footNear(source, p.x, p.y, from + ((to - from) * k) / LOOKS);
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
    return distance(strandPoint(other, source, nearestOn(other, source, middle)), middle) < OFFSET_TOUCH;
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
    throw unclear('the parallel crosses itself');
  }
  return turned;
};

const tooWide = (what: string): StaywrightError =>
  new StaywrightError('impossible', `${what} at this width`, { hint: 'use a lesser width', cause: { tooWide: true } });

const unclear = (what: string): StaywrightError =>
  new StaywrightError('impossible', `${what} at this width`, { hint: 'use a lesser width' });
