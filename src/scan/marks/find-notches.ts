/** Notches: short straight strokes that touch or cross the outline steeply and end freely. */
import { cornersOf } from '../../geometry/corners.ts';
import { tangentOn } from '../../geometry/evaluate.ts';
import type { Path } from '../../geometry/path.ts';
import type { Point } from '../../geometry/point.ts';
import { line, type Line } from '../../geometry/segment.ts';
import { vectorTo } from '../../geometry/vector.ts';
import type { Picture } from '../picture.ts';
import type { WorkingPicture } from '../working-picture.ts';
import { beginsDashes } from './begins-dashes.ts';
import { followLine } from './follow-line.ts';
import { INSIDE, pixelAt, touchesOutline, type MarkField } from './mark-field.ts';
import { measureEnd } from './measure-end.ts';
import { measureLine } from './measure-line.ts';
import { angleBetween, meetOutline } from './meet-outline.ts';
import type { PrintJudge } from './is-printed.ts';
import { straightPieces } from './straight-pieces.ts';

/** Millimetres over all. */
const SHORTEST = 2;
const LONGEST = 12;
/** One side of a tick, to be looked at: it may be measured together with its other side. */
const SHORTEST_SIDE = 0.7;
const LEAST_ANGLE = (40 * Math.PI) / 180;
const STRAIGHT = 0.12;
/** This near to a line across, a stroke from its end is a part of it. */
const ON_LINE = 0.5;
const GAP = 0.5;
/** Two sides of one tick start this near to each other and run on within this angle. */
const SAME_PLACE = 0.6;
const SAME_WAY = (14 * Math.PI) / 180;
/** Sides drawn on beyond a corner this near run within this angle of the outline. */
const AT_CORNER = 2;
const TAIL_ANGLE = (12 * Math.PI) / 180;
/** A bar at the end of a tick reaches no further to either side. */
const LONGEST_BAR = 4;

/** A run of thinned ink as places from end to end, and whether each end is free. */
export interface Stroke {
  readonly points: readonly Point[];
  readonly isFree: readonly [boolean, boolean];
}

/** One side of what may be a tick. */
interface Side {
  readonly isInside: boolean;
  /** From where it meets the outline to its free end. */
  readonly line: Line;
  readonly angle: number;
}

const lengthOf = ({ start, end }: Line): number => Math.hypot(end.x - start.x, end.y - start.y);
const apart = (a: Point, b: Point): number => Math.hypot(b.x - a.x, b.y - a.y);

/** Whether the ink at a stroke's end goes on: forwards by a bend, or far to a side. */
const goesOn = (field: MarkField, { start, end }: Line, mm: number): boolean => {
  const long = lengthOf({ kind: 'line', start, end });
  const [dx, dy] = [(end.x - start.x) / long, (end.y - start.y) / long];
  const first = pixelAt(field, end.x - dx * field.step, end.y - dy * field.step);
  if (first < 0) return true;
  const seen = new Set([first]);
  const open = [first];
  const isInk = (p: number): boolean => field.ink[p] === 1;
  for (let p = open.pop(); p !== undefined; p = open.pop()) {
    const x = ((p % field.width) + field.left + 0.5) * field.step - end.x;
    const y = (Math.floor(p / field.width) + field.top + 0.5) * field.step - end.y;
    const ahead = x * dx + y * dy;
    const beside = Math.abs(dx * y - dy * x);
    if (beside > LONGEST_BAR * mm || ahead > 0.6 * mm) return true;
    if (ahead < -0.9 * mm) continue;
    for (const q of [p - 1, p + 1, p - field.width, p + field.width]) {
      if (q < 0 || q >= field.ink.length || seen.has(q) || !isInk(q)) continue;
      seen.add(q);
      open.push(q);
    }
  }
  return false;
};

const sideFrom = (field: MarkField, outline: Path, points: readonly Point[], mm: number): Side | undefined => {
  const piece = straightPieces(points, 0.18 * mm).find((l) => lengthOf(l) >= SHORTEST_SIDE * mm);
  // Thinned ink may start with a hook.
  if (!piece || apart(piece.start, points[0]!) > SHORTEST_SIDE * mm) return undefined;
  const middle = pixelAt(field, (piece.start.x + piece.end.x) / 2, (piece.start.y + piece.end.y) / 2);
  const followed = followLine(field, line(piece.end, piece.start), GAP * mm, mm);
  if (!followed || middle < 0 || !followed.tied[1] || followed.tied[0]) return undefined;
  if (lengthOf(followed.line) > LONGEST * mm) return undefined;
  const met = meetOutline(outline, followed.line, 3 * mm);
  if (!met || met.angle < LEAST_ANGLE || isTail(outline, met.at, followed.line, mm)) return undefined;
  const tick = line(met.at, followed.line.start);
  if (goesOn(field, tick, mm)) return undefined;
  return { isInside: (field.zone[middle]! & INSIDE) !== 0, line: tick, angle: met.angle };
};

/** A side of the outline that was drawn on beyond its corner. */
const isTail = (outline: Path, at: Point, stroke: Line, mm: number): boolean =>
  cornersOf(outline).some((i) => {
    const after = outline.segments[i]!;
    if (apart(after.start, at) > AT_CORNER * mm) return false;
    const before = outline.segments.at(i - 1)!;
    const way = vectorTo(stroke.start, stroke.end);
    return [tangentOn(before, 1), tangentOn(after, 0)].some((t) => angleBetween(t, way) < TAIL_ANGLE);
  });

/** The two sides of each tick, or the one it has. */
const pairSides = (sides: readonly Side[], mm: number): [Side | undefined, Side | undefined][] => {
  const outer = sides.filter((s) => !s.isInside);
  const pairs: [Side | undefined, Side | undefined][] = [];
  for (const inner of sides.filter((s) => s.isInside)) {
    const k = outer.findIndex(
      (o) =>
        apart(o.line.start, inner.line.start) <= SAME_PLACE * mm &&
        angleBetween(vectorTo(o.line.start, o.line.end), vectorTo(inner.line.start, inner.line.end)) <= SAME_WAY,
    );
    pairs.push([inner, k < 0 ? undefined : outer.splice(k, 1)[0]!]);
  }
  return [...pairs, ...outer.map((o): [undefined, Side] => [undefined, o])];
};

/** Whether a stroke is a piece of a line that runs to the outline, or its overshoot beyond. */
const isPartOf = (stroke: Line, { start, end }: Line, within: number): boolean => {
  const long = apart(start, end);
  const [dx, dy] = [(end.x - start.x) / long, (end.y - start.y) / long];
  const off = (p: Point): number => Math.abs(dx * (p.y - start.y) - dy * (p.x - start.x));
  const isAtEnd = Math.min(apart(stroke.start, start), apart(stroke.start, end)) <= 2 * within;
  return isAtEnd && off(stroke.start) <= within && off(stroke.end) <= within;
};

export interface FoundNotch {
  readonly notch: Line;
  /** All of its ink, inside the outline and beyond it. */
  readonly ink: Line;
}

const notchFrom = (
  picture: Picture,
  outline: Path,
  [inner, outer]: readonly [Side | undefined, Side | undefined],
  lineWidth: number,
  mm: number,
  isPrinted: PrintJudge['isPrinted'],
): FoundNotch | undefined => {
  const guess = line((outer ?? inner!).line[outer ? 'end' : 'start'], (inner ?? outer!).line[inner ? 'end' : 'start']);
  const long = lengthOf(guess);
  if (long < SHORTEST * mm || long > LONGEST * mm) return undefined;
  const clear = lineWidth / 2 + 0.35 * mm;
  const at = outer ? lengthOf(outer.line) : 0;
  const stretches = [
    { from: 0.4 * mm, to: at - clear },
    { from: at + clear, to: long - 0.4 * mm },
  ].filter((s) => s.to > s.from);
  const measured = measureLine(picture, guess, stretches, mm);
  if (!measured || measured.most > STRAIGHT * mm) return undefined;
  const { start, end } = measured.line;
  const place = {
    x: start.x + ((end.x - start.x) * at) / long,
    y: start.y + ((end.y - start.y) * at) / long,
  };
  const met = meetOutline(outline, line(inner ? end : start, place), 3 * mm);
  if (!met) return undefined;
  if (!isPrinted(measured, met)) return undefined;
  const tip = (to: Line): Point => measureEnd(picture, to, measured.width, 0.8 * mm);
  const first = outer ? tip(line(end, start)) : met.at;
  const last = inner ? tip(measured.line) : met.at;
  const inwards = inner ? last : { x: 2 * met.at.x - first.x, y: 2 * met.at.y - first.y };
  return { notch: line(met.at, inwards), ink: line(first, last) };
};

/**
 * The notches among strokes, all of them printed, by `isPrinted`. A tick
 * that lies outside alone gives a notch as long inwards. Ticks with a bar at their end count, the bar does not; strokes that go on past
 * 12 mm, bend, begin a dashed line or are part of one of the `lines` across are none. In order of where they start, from the top.
 */
export const findNotches = (
  picture: Picture,
  working: WorkingPicture,
  field: MarkField,
  outline: Path,
  strokes: readonly Stroke[],
  lineWidth: number,
  pxPerMm: number,
  isPrinted: PrintJudge['isPrinted'],
  lines: readonly Line[],
): FoundNotch[] => {
  const sides: Side[] = [];
  for (const { points } of strokes) {
    for (const from of [points, points.toReversed()]) {
      if (points.length < 3 || !touchesOutline(field, from[0]!)) continue;
      const side = sideFrom(field, outline, from, pxPerMm);
      if (!side || beginsDashes(working, side.line, pxPerMm)) continue;
      if (lines.some((l) => isPartOf(side.line, l, ON_LINE * pxPerMm))) continue;
      const isKnown = sides.some(
        (s) => s.isInside === side.isInside && apart(s.line.start, side.line.start) < SAME_PLACE * pxPerMm,
      );
      if (!isKnown) sides.push(side);
    }
  }
  return pairSides(sides, pxPerMm)
    .flatMap((pair) => notchFrom(picture, outline, pair, lineWidth, pxPerMm, isPrinted) ?? [])
    .toSorted((a, b) => a.notch.start.y - b.notch.start.y || a.notch.start.x - b.notch.start.x);
};
