/** Notches printed as small triangles, filled or open, whose base is the outline. */
import type { Path } from '../../geometry/path.ts';
import { distance, type Point } from '../../geometry/point.ts';
import { line, type Line } from '../../geometry/segment.ts';
import type { Picture } from '../picture.ts';
import type { Cut } from './bridge-cuts.ts';
import { BAND, INSIDE, NEAR, pixelAt, placeOf, type MarkField } from './mark-field.ts';
import { meetOutline } from './meet-outline.ts';
import { notchFromCut } from './notch-from-cut.ts';

/** Millimetres, of what is seen of a triangle beside the outline's own ink. */
const LEAST_BASE = 1;
const WIDEST_BASE = 8;
const LEAST_HEIGHT = 1.6;
const MOST_HEIGHT = 8;
/** Where on its base the tip stands, as a share of it, at least. */
const ASIDE = 0.2;
/** Its ink lies in the straight triangle but for so much, and all along its sides. */
const OFF = 0.35;
const COVER = 0.92;
/** Deeper inside than this, nearly all is ink or nearly none. */
const DEEP = 0.55;
const MOSTLY = 0.9;
/** On the outline at one place there is one notch, also where a triangle stands inside and another outside. */
const SAME_PLACE = 0.8;
/** Beside the outline's own ink, a triangle's sides are read from here on. */
const CLEAR = 0.45;

interface Triangle {
  readonly cut: Cut;
  readonly isFilled: boolean;
  readonly isInside: boolean;
}

/** The pieces of ink that touch the outline, those of each in one list. */
const inkAtOutline = ({ ink, zone, width }: MarkField): number[][] => {
  const seen = new Uint8Array(ink.length);
  const around = [-width - 1, -width, -width + 1, -1, 1, width - 1, width, width + 1];
  const pieces: number[][] = [];
  for (let seed = 0; seed < ink.length; seed += 1) {
    if (ink[seed] !== 1 || seen[seed] === 1 || (zone[seed]! & NEAR) === 0) continue;
    const piece = [seed];
    seen[seed] = 1;
    for (let at = 0; at < piece.length; at += 1) {
      for (const by of around) {
        const q = piece[at]! + by;
        if (ink[q] !== 1 || seen[q] === 1) continue;
        seen[q] = 1;
        piece.push(q);
      }
    }
    pieces.push(piece);
  }
  return pieces;
};

const farthest = (points: readonly Point[], from: Point): Point =>
  points.reduce((best, p) => (distance(p, from) > distance(best, from) ? p : best));

/** How far a point lies to the right of the way from `a` to `b`, as seen on the page. */
const rightOf = (a: Point, b: Point, p: Point): number =>
  ((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)) / distance(a, b);

const triangleFrom = (field: MarkField, outline: Path, pixels: readonly number[], mm: number): Triangle | undefined => {
  const { zone, width } = field;
  const isAtBand = (p: number): boolean =>
    [p - 1, p + 1, p - width, p + width].some((q) => q >= 0 && q < zone.length && (zone[q]! & BAND) !== 0);
  const base = pixels.filter(isAtBand).map((p) => placeOf(field, p));
  if (base.length < 2) return undefined;
  const u = farthest(base, base[0]!);
  const v = farthest(base, u);
  const wide = distance(u, v);
  if (wide < LEAST_BASE * mm || wide > WIDEST_BASE * mm) return undefined;
  const points = pixels.map((p) => placeOf(field, p));
  const heightOf = (p: Point): number => Math.abs(rightOf(u, v, p));
  const tip = points.reduce((best, p) => (heightOf(p) > heightOf(best) ? p : best));
  const high = heightOf(tip);
  if (high < LEAST_HEIGHT * mm || high > MOST_HEIGHT * mm) return undefined;
  const along = ((tip.x - u.x) * (v.x - u.x) + (tip.y - u.y) * (v.y - u.y)) / wide ** 2;
  if (along < ASIDE || along > 1 - ASIDE) return undefined;
  // Clockwise on the page, so that what lies inside lies to the right of each side.
  const [a, b] = rightOf(u, v, tip) > 0 ? [u, v] : [v, u];
  const depth = (p: Point): number => Math.min(rightOf(a, b, p), rightOf(b, tip, p), rightOf(tip, a, p));
  if (points.some((p) => depth(p) < -OFF * mm)) return undefined;
  if (![a, b].every((end) => coverOf(field, line(end, tip)) >= COVER)) return undefined;
  const share = inkDeepIn(field, [a, b, tip], (p) => depth(p) > DEEP * mm);
  if (share > 1 - MOSTLY && share < MOSTLY) return undefined;
  const isInside = (zone[pixels[0]!]! & INSIDE) !== 0;
  const mouth = [a, b].map((end) => meetOutline(outline, line(tip, end), 3 * mm)?.at);
  if (!mouth[0] || !mouth[1]) return undefined;
  // The outline runs clockwise too: along the base of a triangle outside, it runs from the last corner to the first.
  return {
    cut: { mouth: isInside ? [mouth[0], mouth[1]] : [mouth[1], mouth[0]], tip },
    isFilled: share >= MOSTLY,
    isInside,
  };
};

/** The share of a line, its ends left out, that has ink on it or within a pixel of it. */
const coverOf = (field: MarkField, { start, end }: Line): number => {
  const count = Math.ceil(distance(start, end) / field.step);
  let [covered, all] = [0, 0];
  for (let k = 1; k < count; k += 1) {
    const p = pixelAt(field, start.x + ((end.x - start.x) * k) / count, start.y + ((end.y - start.y) * k) / count);
    const near = [p, p - 1, p + 1, p - field.width, p + field.width];
    all += 1;
    if (near.some((q) => field.ink[q] === 1)) covered += 1;
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

/**
 * The notches that small triangles on the outline stand for: from the middle of the base to the tip, as far inwards where the tip lies
 * outside. Their ink is taken out of the field. True to 0.1 mm.
 */
export const takeTriangles = (
  picture: Picture,
  field: MarkField,
  outline: Path,
  lineWidth: number,
  pxPerMm: number,
): Line[] => {
  const found: { notch: Line; isInside: boolean }[] = [];
  for (const pixels of inkAtOutline(field)) {
    const triangle = triangleFrom(field, outline, pixels, pxPerMm);
    if (!triangle) continue;
    const { cut, isFilled, isInside } = triangle;
    // A filled triangle inside is to the panel what a V cut is to a piece, one outside what a triangle left standing is.
    const edge = !isFilled ? 'ink' : isInside ? 'lighter' : 'darker';
    const notch = notchFromCut(picture, outline, cut, edge, pxPerMm, lineWidth / 2 + CLEAR * pxPerMm);
    if (!notch) continue;
    for (const p of pixels) field.ink[p] = 0;
    found.push({ notch, isInside });
  }
  const inner = found.filter((f) => f.isInside);
  const alone = found.filter(
    (f) => !f.isInside && inner.every((i) => distance(i.notch.start, f.notch.start) > SAME_PLACE * pxPerMm),
  );
  return [...inner, ...alone].map((f) => f.notch);
};
