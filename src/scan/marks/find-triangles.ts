/** Notches printed as small triangles, filled or open, whose base is the outline. */
import type { Path } from '../../geometry/path.ts';
import { between, distance, movePoint, type Point } from '../../geometry/point.ts';
import { line, type Line } from '../../geometry/segment.ts';
import { scaled, unit, vector } from '../../geometry/vector.ts';
import type { Picture } from '../picture.ts';
import { BAND, INSIDE, NEAR, pixelAt, placeOf, type MarkField } from './mark-field.ts';
import { meetOutline } from './meet-outline.ts';
import { notchFromCut } from './notch-from-cut.ts';

/** Millimetres, of what is seen of a triangle beside the outline's own ink. */
const LEAST_BASE = 1;
const WIDEST_BASE = 8;
const LEAST_HEIGHT = 1.6;
const MOST_HEIGHT = 8;
/** How far beside the middle of its base the tip is looked for, in shares of the base. */
const ASIDE = [-0.3, -0.2, -0.1, 0, 0.1, 0.2, 0.3];
/** There is ink all along its sides and, this far outside of them, only where another line crosses. */
const COVER = 0.9;
const RIM = 0.45;
const CROSSED = 0.4;
/** Of a side, from the base, where that is looked at: other lines come near the tip. */
const CLEAR_SHARE = 0.75;
/** Deeper inside than this share of what is possible, nearly all is ink or nearly none. */
const DEEP = 0.5;
const MOSTLY = 0.85;
const MOSTLY_NOT = 0.25;
/** Ink so near to it belongs to it. */
const OFF = 0.4;
/** On the outline at one place there is one notch, also where a triangle stands inside and another outside. */
const SAME_PLACE = 0.8;
/** Beside the outline's own ink, a triangle's sides are read from here on. */
const CLEAR = 0.45;

/** A triangle as it is seen, clockwise on the page, its base first. */
interface Triangle {
  readonly corners: readonly [Point, Point, Point];
  readonly isFilled: boolean;
}

/** The runs of ink that lie next to the outline's band, inside or outside of it. */
const basesOf = ({ ink, zone, width }: MarkField): number[][] => {
  const seen = new Uint8Array(ink.length);
  const around = [-1, 1, -width, width, -width - 1, -width + 1, width - 1, width + 1];
  const isBase = (p: number): boolean =>
    ink[p] === 1 &&
    (zone[p]! & NEAR) !== 0 &&
    ((zone[p - 1]! | zone[p + 1]! | zone[p - width]! | zone[p + width]!) & BAND) !== 0;
  const runs: number[][] = [];
  for (let seed = 0; seed < ink.length; seed += 1) {
    if (ink[seed] !== 1 || seen[seed] === 1 || !isBase(seed)) continue;
    const run = [seed];
    seen[seed] = 1;
    for (let at = 0; at < run.length; at += 1) {
      for (const by of around) {
        const q = run[at]! + by;
        if (seen[q] === 1 || !isBase(q)) continue;
        seen[q] = 1;
        run.push(q);
      }
    }
    runs.push(run);
  }
  return runs;
};

const middleOf = (points: readonly Point[]): Point => ({
  x: points.reduce((sum, p) => sum + p.x, 0) / points.length,
  y: points.reduce((sum, p) => sum + p.y, 0) / points.length,
});

const farthest = (points: readonly Point[], from: Point): Point =>
  points.reduce((best, p) => (distance(p, from) > distance(best, from) ? p : best));

/** The ends of what may be bases: of each long run, of a filled triangle; of two short ones, of an open one. */
const mayBeBases = (field: MarkField, runs: readonly (readonly number[])[], mm: number): [Point, Point][] => {
  const places = runs.map((run) => run.map((p) => placeOf(field, p)));
  const ends = places.map((run): [Point, Point] => {
    const u = farthest(run, run[0]!);
    return [u, farthest(run, u)];
  });
  const isLong = ([u, v]: readonly [Point, Point]): boolean => distance(u, v) >= LEAST_BASE * mm;
  const feet = places.filter((_, i) => !isLong(ends[i]!)).map(middleOf);
  const pairs = feet.flatMap((a, i) => feet.slice(i + 1).map((b): [Point, Point] => [a, b]));
  return [...ends, ...pairs].filter((base) => isLong(base) && distance(...base) <= WIDEST_BASE * mm);
};

/** How far a point lies to the right of the way from `a` to `b`, as seen on the page. */
const rightOf = (a: Point, b: Point, p: Point): number =>
  ((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)) / distance(a, b);

const depthIn = ([a, b, tip]: Triangle['corners'], p: Point): number =>
  Math.min(rightOf(a, b, p), rightOf(b, tip, p), rightOf(tip, a, p));

/** The line as far to the left as `by`. */
const leftOf = ({ start, end }: Line, by: number): Line => {
  const left = scaled(unit(vector(end.y - start.y, start.x - end.x)), by);
  return line(movePoint(start, left), movePoint(end, left));
};

/** The triangle on a base, on the side to the right of the way from `a` to `b`. */
const triangleOn = (field: MarkField, a: Point, b: Point, mm: number): Triangle | undefined => {
  const wide = distance(a, b);
  const [along, up] = [vector(b.x - a.x, b.y - a.y), vector((a.y - b.y) / wide, (b.x - a.x) / wide)];
  let best: { corners: Triangle['corners']; score: number } | undefined;
  for (let high = LEAST_HEIGHT * mm; high <= MOST_HEIGHT * mm; high += field.step) {
    for (const aside of ASIDE) {
      const tip = movePoint(movePoint(a, scaled(along, 0.5 + aside)), scaled(up, high));
      const sides = [line(b, tip), line(tip, a)];
      const covers = sides.map((side) => coverOf(field, side, true));
      if (Math.min(...covers) < COVER) continue;
      const feet = [line(b, between(b, tip, CLEAR_SHARE)), line(between(a, tip, CLEAR_SHARE), a)];
      const rims = feet.map((side) => coverOf(field, leftOf(side, RIM * mm), false));
      if (Math.max(...rims) > CROSSED) continue;
      const score = covers[0]! + covers[1]! - rims[0]! - rims[1]!;
      if (best === undefined || score >= best.score) best = { corners: [a, b, tip], score };
    }
  }
  if (!best) return undefined;
  const { corners } = best;
  const [, , tip] = corners;
  const deepest = (wide * rightOf(a, b, tip)) / (wide + distance(b, tip) + distance(tip, a));
  const share = inkDeepIn(field, corners, (p) => depthIn(corners, p) > DEEP * deepest);
  return share > MOSTLY_NOT && share < MOSTLY ? undefined : { corners, isFilled: share >= MOSTLY };
};

/** The share of a line, its ends left out, that has ink on it, or within a pixel of it too. */
const coverOf = (field: MarkField, { start, end }: Line, orBeside: boolean): number => {
  const count = Math.ceil(distance(start, end) / field.step);
  let [covered, all] = [0, 0];
  for (let k = 1; k < count; k += 1) {
    const p = pixelAt(field, start.x + ((end.x - start.x) * k) / count, start.y + ((end.y - start.y) * k) / count);
    const { ink, width } = field;
    all += 1;
    if (ink[p] === 1) covered += 1;
    else if (orBeside && (ink[p - 1] === 1 || ink[p + 1] === 1 || ink[p - width] === 1 || ink[p + width] === 1))
      covered += 1;
  }
  return all === 0 ? 0 : covered / all;
};

/** The share of ink among the pixels round some points that lie deep within; 0 where there are none. */
const inkDeepIn = (field: MarkField, round: readonly Point[], isDeep: (p: Point) => boolean): number => {
  const [xs, ys] = [round.map((p) => p.x), round.map((p) => p.y)];
  let [inked, all] = [0, 0];
  for (let y = Math.min(...ys); y <= Math.max(...ys); y += field.step) {
    for (let x = Math.min(...xs); x <= Math.max(...xs); x += field.step) {
      if (!isDeep({ x, y })) continue;
      all += 1;
      if (field.ink[pixelAt(field, x, y)] === 1) inked += 1;
    }
  }
  return all === 0 ? 0 : inked / all;
};

/** The notch of a triangle that was seen at working size. */
const notchFrom = (
  picture: Picture,
  outline: Path,
  { corners: [a, b, tip], isFilled }: Triangle,
  isInside: boolean,
  lineWidth: number,
  mm: number,
): Line | undefined => {
  const [first, last] = [a, b].map((end) => meetOutline(outline, line(tip, end), 3 * mm)?.at);
  if (!first || !last) return undefined;
  // The outline runs clockwise too: past a triangle outside, it comes to the triangle's second corner first.
  const mouth: [Point, Point] = isInside ? [first, last] : [last, first];
  // A filled triangle inside is to the panel what a V cut is to a piece, one outside what a triangle left standing is.
  const edge = !isFilled ? 'ink' : isInside ? 'lighter' : 'darker';
  return notchFromCut(picture, outline, { mouth, tip }, edge, mm, lineWidth / 2 + CLEAR * mm);
};

/** Takes the ink of a triangle out of a field. */
const takeInk = (field: MarkField, corners: Triangle['corners'], off: number): void => {
  const [xs, ys] = [corners.map((p) => p.x), corners.map((p) => p.y)];
  for (let y = Math.min(...ys) - off; y <= Math.max(...ys) + off; y += field.step) {
    for (let x = Math.min(...xs) - off; x <= Math.max(...xs) + off; x += field.step) {
      const p = pixelAt(field, x, y);
      if (p >= 0 && depthIn(corners, placeOf(field, p)) > -off) field.ink[p] = 0;
    }
  }
};

/**
 * The notches that small triangles on the outline stand for, whatever crosses them: from the middle of the base to the tip, as far
 * inwards where the tip lies outside. Their ink is taken out of the field. True to 0.1 mm.
 */
export const takeTriangles = (
  picture: Picture,
  field: MarkField,
  outline: Path,
  lineWidth: number,
  pxPerMm: number,
): Line[] => {
  const found: { notch: Line; isInside: boolean }[] = [];
  const isWithin = ([p]: readonly number[]): boolean => (field.zone[p!]! & INSIDE) !== 0;
  const all = basesOf(field);
  for (const isInside of [true, false]) {
    const runs = all.filter((run) => isWithin(run) === isInside);
    for (const [u, v] of mayBeBases(field, runs, pxPerMm)) {
      const triangle = triangleOn(field, u, v, pxPerMm) ?? triangleOn(field, v, u, pxPerMm);
      const notch = triangle && notchFrom(picture, outline, triangle, isInside, lineWidth, pxPerMm);
      if (!notch) continue;
      takeInk(field, triangle.corners, OFF * pxPerMm);
      found.push({ notch, isInside });
    }
  }
  const inner = found.filter((f) => f.isInside);
  const alone = found.filter(
    (f) => !f.isInside && inner.every((i) => distance(i.notch.start, f.notch.start) > SAME_PLACE * pxPerMm),
  );
  return [...inner, ...alone].map((f) => f.notch);
};
