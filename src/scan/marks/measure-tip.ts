import type { Point } from '../../geometry/point.ts';
import { line, type Line } from '../../geometry/segment.ts';
import { edgeReader } from '../outline/edge-reader.ts';
import type { Picture } from '../picture.ts';
import type { Arrow } from './find-arrow.ts';
import { lightAt } from './light-at.ts';
import { pixelAt, type MarkField } from './mark-field.ts';

/** Millimetres: of a filled head, widths below this are blurred; how far off the shaft its middle is looked for. */
const NARROWEST = 0.5;
const REACH = 0.45;
/** Of a barb, the part that is read, as shares of its length, and in how many steps. */
const BARB_FROM = 0.4;
const BARB_TO = 0.93;
const READINGS = 24;

/** How far along `shaft`, as a share of it, a line crosses it. */
const crossingOf = (shaft: Line, other: Line): number | undefined => {
  const [ux, uy] = [shaft.end.x - shaft.start.x, shaft.end.y - shaft.start.y];
  const [vx, vy] = [other.end.x - other.start.x, other.end.y - other.start.y];
  const area = ux * vy - uy * vx;
  return area === 0 ? undefined : ((other.start.x - shaft.start.x) * vy - (other.start.y - shaft.start.y) * vx) / area;
};

const isFilled = (field: MarkField, shaft: Line, { tip, barbs }: Arrow): boolean =>
  barbs.every((barb) => {
    const along = { x: tip.x + (barb.x - tip.x) * 0.6, y: tip.y + (barb.y - tip.y) * 0.6 };
    const long = Math.hypot(shaft.end.x - shaft.start.x, shaft.end.y - shaft.start.y);
    const back = Math.hypot(along.x - tip.x, along.y - tip.y);
    const middle = {
      x: (along.x + tip.x + ((shaft.start.x - shaft.end.x) / long) * back) / 2,
      y: (along.y + tip.y + ((shaft.start.y - shaft.end.y) / long) * back) / 2,
    };
    const p = pixelAt(field, middle.x, middle.y);
    return p >= 0 && field.ink[p] === 1;
  });

/** A filled head grows in proportion to the way from its tip: where its width comes to nothing. */
const tipOfFilled = (picture: Picture, shaft: Line, { tip, barbs }: Arrow, pxPerMm: number): Point | undefined => {
  const long = Math.hypot(shaft.end.x - shaft.start.x, shaft.end.y - shaft.start.y);
  const [dx, dy] = [(shaft.end.x - shaft.start.x) / long, (shaft.end.y - shaft.start.y) / long];
  const head = Math.min(...barbs.map((b) => (tip.x - b.x) * dx + (tip.y - b.y) * dy));
  const read = edgeReader(picture, 'ink', pxPerMm, REACH * pxPerMm);
  const found: { s: number; width: number }[] = [];
  for (let s = 0; s < 0.9 * head; s += 0.1 * pxPerMm) {
    const at = { x: tip.x - dx * s, y: tip.y - dy * s };
    const width = read(at, { dx: -dy, dy: dx })?.width;
    if (width !== undefined && width > NARROWEST * pxPerMm) found.push({ s, width });
  }
  if (found.length < 4) return undefined;
  const s0 = found.reduce((sum, f) => sum + f.s, 0) / found.length;
  const w0 = found.reduce((sum, f) => sum + f.width, 0) / found.length;
  const square = found.reduce((sum, f) => sum + (f.s - s0) ** 2, 0);
  const slope = found.reduce((sum, f) => sum + (f.s - s0) * (f.width - w0), 0) / square;
  const at = s0 - w0 / slope;
  return slope > 0 && Math.abs(at) < 1.2 * pxPerMm ? { x: tip.x - dx * at, y: tip.y - dy * at } : undefined;
};

/**
 * The middle of a thin stroke beside another: the mean of its dark core, of what lies deeper than half its depth below the paper beyond
 * it. `out` points away from the other; nothing if the core reaches `reach`.
 */
const coreAt = (picture: Picture, at: Point, out: Point, reach: number): number | undefined => {
  const light = (s: number): number => lightAt(picture, at.x + out.x * s, at.y + out.y * s);
  const step = 0.25;
  let [paper, depth, deepest] = [0, 0, 0];
  for (let s = 0; s <= reach; s += step) paper = Math.max(paper, light(s));
  for (let s = -reach / 2; s <= reach / 2; s += step) {
    if (paper - light(s) > depth) [depth, deepest] = [paper - light(s), s];
  }
  let [sum, moment] = [0, 0];
  for (const way of [-1, 1]) {
    for (let s = way < 0 ? deepest : deepest + step; ; s += way * step) {
      const over = paper - light(s) - depth / 2;
      if (over <= 0) break;
      if (Math.abs(s) > reach) return undefined;
      sum += over;
      moment += over * s;
    }
  }
  return sum > 0 ? moment / sum : undefined;
};

/** The middle line of a barb, by least squares with the farthest fifth of its readings left out. */
const measureBarb = (picture: Picture, tip: Point, barb: Point, side: 1 | -1, pxPerMm: number): Line | undefined => {
  const long = Math.hypot(barb.x - tip.x, barb.y - tip.y);
  const [dx, dy] = [(barb.x - tip.x) / long, (barb.y - tip.y) / long];
  const out = { x: -dy * side, y: dx * side };
  let read: { s: number; off: number }[] = [];
  for (let k = 0; k <= READINGS; k += 1) {
    const s = long * (BARB_FROM + ((BARB_TO - BARB_FROM) * k) / READINGS);
    const off = coreAt(picture, { x: tip.x + dx * s, y: tip.y + dy * s }, out, 2 * REACH * pxPerMm);
    if (off !== undefined) read.push({ s, off });
  }
  let [a, b] = [0, 0];
  for (const share of [1, 0.8]) {
    read = read.slice(0, Math.ceil(read.length * share));
    if (read.length < 4) return undefined;
    const s0 = read.reduce((sum, r) => sum + r.s, 0) / read.length;
    const off0 = read.reduce((sum, r) => sum + r.off, 0) / read.length;
    const square = read.reduce((sum, r) => sum + (r.s - s0) ** 2, 0);
    b = read.reduce((sum, r) => sum + (r.s - s0) * (r.off - off0), 0) / square;
    a = off0 - b * s0;
    read = read.toSorted((p, q) => Math.abs(p.off - a - b * p.s) - Math.abs(q.off - a - b * q.s));
  }
  const place = (s: number): Point => ({
    x: tip.x + dx * s + out.x * (a + b * s),
    y: tip.y + dy * s + out.y * (a + b * s),
  });
  return line(place(0), place(long));
};

/**
 * The tip of an arrowhead on its shaft's measured middle: where the middles of its two barbs cross the shaft, half-way between both, or
 * where a filled head comes to a point. Where neither can be read, the tip as it was found, about a fifth of a millimetre off.
 */
export const measureTip = (
  picture: Picture,
  field: MarkField,
  shaft: Line,
  arrow: Arrow,
  pxPerMm: number,
): Point | undefined => {
  if (isFilled(field, shaft, arrow)) return tipOfFilled(picture, shaft, arrow, pxPerMm);
  const crossings = arrow.barbs.flatMap((barb) => {
    const along = { x: shaft.end.x - shaft.start.x, y: shaft.end.y - shaft.start.y };
    const [x, y] = [barb.x - arrow.tip.x, barb.y - arrow.tip.y];
    // A barb runs back: what lies to the right of the shaft lies to the left of its own way.
    const side = along.x * y - along.y * x > 0 ? -1 : 1;
    const measured = measureBarb(picture, arrow.tip, barb, side, pxPerMm);
    return measured ? (crossingOf(shaft, measured) ?? []) : [];
  });
  if (crossings.length === 0) return undefined;
  const t = crossings.reduce((sum, value) => sum + value, 0) / crossings.length;
  const tip = {
    x: shaft.start.x + (shaft.end.x - shaft.start.x) * t,
    y: shaft.start.y + (shaft.end.y - shaft.start.y) * t,
  };
  return Math.hypot(tip.x - arrow.tip.x, tip.y - arrow.tip.y) < 1.2 * pxPerMm ? tip : undefined;
};
