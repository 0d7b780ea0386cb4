import { intersectPaths } from '../../geometry/intersect.ts';
import type { Path } from '../../geometry/path.ts';
import { between, distance, type Point } from '../../geometry/point.ts';
import { line, type Line } from '../../geometry/segment.ts';
import type { Picture } from '../picture.ts';
import type { OutlineEdge } from '../rough-outline.ts';
import type { Cut } from './bridge-cuts.ts';
import { measureLine } from './measure-line.ts';
import { meetOutline } from './meet-outline.ts';

/** What of a side is read, as shares of the way from its mouth to its tip: at both ends other edges are near. */
const READ_FROM = 0.15;
const READ_TO = 0.72;
/** How far the measured tip may lie from the rough one, and how far beside its mouth the outline may run; millimetres. */
const TIP_OFF = 2;
const OUTLINE_OFF = 1.5;

const meeting = (a: Line, b: Line): Point | undefined => {
  const [ux, uy] = [a.end.x - a.start.x, a.end.y - a.start.y];
  const [vx, vy] = [b.end.x - b.start.x, b.end.y - b.start.y];
  const area = ux * vy - uy * vx;
  if (area === 0) return undefined;
  const t = ((b.start.x - a.start.x) * vy - (b.start.y - a.start.y) * vx) / area;
  return { x: a.start.x + ux * t, y: a.start.y + uy * t };
};

/** What is read of a side of some length, from its tip. */
const readAlong = (long: number, clear: number): { from: number; to: number }[] => [
  { from: (1 - READ_TO) * long, to: long - Math.max(READ_FROM * long, clear) },
];

/**
 * The notch of a V cut: from the accurate `outline` of the piece, led over the mouth, to the tip, where the two measured sides meet; it
 * lies on the line through the tip and the middle of the mouth. Of a triangle left standing, as far inwards as its tip lies outside.
 * Within `clear` pixels of the mouth nothing is read. True to 0.1 mm where both sides can be measured, else as rough as the cut was found. Nothing if it does not meet the outline.
 */
export const notchFromCut = (
  picture: Picture,
  outline: Path,
  cut: Cut,
  edge: OutlineEdge,
  pxPerMm: number,
  clear = 0,
): Line | undefined => {
  const [first, last] = cut.mouth;
  // Both run against the outline's own direction, so that the piece lies to their left.
  const down = line(cut.tip, first);
  const up = line(last, cut.tip);
  const measuredDown = measureLine(picture, down, readAlong(distance(cut.tip, first), clear), pxPerMm, edge)?.line;
  const long = distance(cut.tip, last);
  const upwards = readAlong(long, clear).map(({ from, to }) => ({ from: long - to, to: long - from }));
  const measuredUp = measureLine(picture, up, upwards, pxPerMm, edge)?.line;
  const met = measuredDown && measuredUp && meeting(measuredDown, measuredUp);
  const sides = met && distance(met, cut.tip) <= TIP_OFF * pxPerMm ? [measuredDown.end, measuredUp.start] : undefined;
  const tip = sides ? met! : cut.tip;
  const mouth =
    sides?.map((side) => meetOutline(outline, line(tip, side), OUTLINE_OFF * pxPerMm)?.at ?? side) ?? cut.mouth;
  const middle = between(mouth[0]!, mouth[1]!, 0.5);
  const reach = between(tip, middle, 1 + (2 * pxPerMm) / Math.max(1, distance(tip, middle)));
  const start = intersectPaths({ segments: [line(tip, reach)] }, outline)
    .map(({ point }) => point)
    .toSorted((a, b) => distance(a, middle) - distance(b, middle))[0];
  if (!start) return undefined;
  return line(start, isOutside(cut) ? between(tip, start, 2) : tip);
};

/** Outlines run clockwise with y downwards: what lies to the left of the line over its mouth stands out. */
const isOutside = ({ mouth: [a, b], tip }: Cut): boolean =>
  (b.x - a.x) * (tip.y - a.y) - (b.y - a.y) * (tip.x - a.x) < 0;
