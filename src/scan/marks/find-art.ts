import type { Path } from '../../geometry/path.ts';
import { line, type Line } from '../../geometry/segment.ts';
import type { Point } from '../../geometry/point.ts';
import type { Arrow } from './find-arrow.ts';
import { BAND, INSIDE, NEAR, pixelAt, placeOf, type MarkField } from './mark-field.ts';
import { fewPoints } from './straight-pieces.ts';
import type { ThinInk } from './thin-ink.ts';
import { traceStrokes, type Stroke } from './trace-strokes.ts';

/** Millimetres: a speck; how near to a mark ink belongs to it; how true to its ink a stroke is drawn. */
const SPECK = 1;
const BESIDE_MARK = 0.45;
const TRUE_TO = 0.08;
/** What thinning takes from a free end at most; millimetres. */
const END = 0.8;

const isBeside = (p: Point, { start, end }: Line, within: number): boolean => {
  const [ux, uy] = [end.x - start.x, end.y - start.y];
  const square = ux * ux + uy * uy;
  const t = square === 0 ? 0 : Math.min(1, Math.max(0, ((p.x - start.x) * ux + (p.y - start.y) * uy) / square));
  return Math.hypot(p.x - start.x - ux * t, p.y - start.y - uy * t) <= within;
};

/** Within an arrowhead: beside a barb or the shaft, or between them. */
const isInHead = (p: Point, { tip, barbs: [a, b] }: Arrow, within: number): boolean => {
  const side = (u: Point, v: Point): number => (v.x - u.x) * (p.y - u.y) - (v.y - u.y) * (p.x - u.x);
  const turns = [side(tip, a), side(a, b), side(b, tip)];
  return (
    turns.every((s) => s >= 0) ||
    turns.every((s) => s <= 0) ||
    [line(tip, a), line(tip, b)].some((barb) => isBeside(p, barb, within))
  );
};

/** Thinned ink runs in steps of a pixel: each inner point becomes the mean of itself and its neighbours. */
const smoothed = (points: readonly Point[]): Point[] =>
  points.map((p, i) => {
    const [a, b] = [points[i - 1], points[i + 1]];
    return a && b ? { x: (a.x + 2 * p.x + b.x) / 4, y: (a.y + 2 * p.y + b.y) / 4 } : p;
  });

/** The middle of the ink round a thinned pixel: strokes an even number of pixels wide have theirs between two pixels. */
const middleAt = (field: MarkField, pixel: number): Point => {
  const { x, y } = placeOf(field, pixel);
  let [count, right, down] = [0, 0, 0];
  for (let j = -2; j <= 2; j += 1) {
    for (let i = -2; i <= 2; i += 1) {
      if (field.ink[pixel + j * field.width + i] !== 1) continue;
      count += 1;
      right += i;
      down += j;
    }
  }
  return count === 0 ? { x, y } : { x: x + (right / count) * field.step, y: y + (down / count) * field.step };
};

/** What thinning took from the free end of a stroke: on in its direction as long as there is ink. */
const drawnOn = (field: MarkField, points: readonly Point[], mm: number): Point[] => {
  const end = points.at(-1)!;
  const back = points.at(-5) ?? points[0]!;
  const long = Math.hypot(end.x - back.x, end.y - back.y);
  if (long === 0) return points.slice();
  const [dx, dy] = [(end.x - back.x) / long, (end.y - back.y) / long];
  let last = 0;
  for (let s = field.step / 2; s <= END * mm; s += field.step / 2) {
    const p = pixelAt(field, end.x + dx * s, end.y + dy * s);
    if (p < 0 || field.ink[p] === 0) break;
    last = s;
  }
  return last === 0 ? points.slice() : [...points, { x: end.x + dx * last, y: end.y + dy * last }];
};

/** Strokes that hang together, by their ends. */
const groupsOf = (strokes: readonly Stroke[]): Stroke[][] => {
  const parent = strokes.map((_, i) => i);
  const root = (i: number): number => {
    let at = i;
    while (parent[at] !== at) at = parent[at] = parent[parent[at]!]!;
    return at;
  };
  const at = new Map<number, number>();
  for (const [i, { pixels }] of strokes.entries()) {
    for (const end of [pixels[0]!, pixels.at(-1)!]) {
      const other = at.get(end);
      if (other === undefined) at.set(end, i);
      else parent[root(i)] = root(other);
    }
  }
  const groups = new Map<number, Stroke[]>();
  for (const [i, stroke] of strokes.entries()) groups.set(root(i), [...(groups.get(root(i)) ?? []), stroke]);
  return [...groups.values()];
};

/**
 * What is left of a panel's thinned ink without the marks that were found: open chains of straight lines along the middles of its
 * strokes, true to about 0.1 mm; corners, which thinning rounds, to 0.3 mm, or 0.7 mm where they are acute. Specks of under 1 mm are
 * left out, as is what only runs along the outline.
 */
export const findArt = (
  field: MarkField,
  ink: ThinInk,
  marks: readonly Line[],
  arrows: readonly Arrow[],
  pxPerMm: number,
): Path[] => {
  const left = ink.pixels.filter((p) => {
    if ((field.zone[p]! & (INSIDE | BAND)) !== INSIDE) return false;
    const at = placeOf(field, p);
    return (
      !marks.some((m) => isBeside(at, m, BESIDE_MARK * pxPerMm)) &&
      !arrows.some((a) => isInHead(at, a, 1.2 * BESIDE_MARK * pxPerMm))
    );
  });
  const thin = new Uint8Array(ink.thin.length);
  for (const p of left) thin[p] = 1;
  return groupsOf(traceStrokes({ thin, width: ink.width, pixels: left })).flatMap((group) => {
    const all = group.flatMap((s) => s.pixels);
    const places = all.map((p) => placeOf(field, p));
    const wide = Math.max(...places.map((p) => p.x)) - Math.min(...places.map((p) => p.x));
    const high = Math.max(...places.map((p) => p.y)) - Math.min(...places.map((p) => p.y));
    if (Math.hypot(wide, high) < SPECK * pxPerMm || all.every((p) => (field.zone[p]! & NEAR) !== 0)) return [];
    return group.flatMap(({ pixels, degrees }) => {
      if (pixels.length < 2) return [];
      let points = smoothed(pixels.map((p) => middleAt(field, p)));
      if (degrees[1] === 1) points = drawnOn(field, points, pxPerMm);
      if (degrees[0] === 1) points = drawnOn(field, points.toReversed(), pxPerMm);
      if (degrees[0] === 2 && degrees[1] === 2) points.push(points[0]!);
      const few = fewPoints(points, TRUE_TO * pxPerMm);
      return few.length < 2 ? [] : [{ segments: few.slice(1).map((p, i) => line(few[i]!, p)) }];
    });
  });
};
