import type { Point } from '../../geometry/point.ts';
import { line, type Line } from '../../geometry/segment.ts';
import { measureEdge } from '../outline/measure-edge.ts';
import type { Picture } from '../picture.ts';
import type { Arrow } from './find-arrow.ts';
import { pixelAt, type MarkField } from './mark-field.ts';
import { measureLine } from './measure-line.ts';

/** Millimetres: of a filled head, widths below this are blurred; how far off the shaft its middle is looked for. */
const NARROWEST = 0.5;
const REACH = 0.45;

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
  const found: { s: number; width: number }[] = [];
  for (let s = 0; s < 0.9 * head; s += 0.1 * pxPerMm) {
    const at = { x: tip.x - dx * s, y: tip.y - dy * s };
    const width = measureEdge(picture, at, { dx: -dy, dy: dx }, 'ink', pxPerMm, REACH * pxPerMm)?.width;
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
    const long = Math.hypot(barb.x - arrow.tip.x, barb.y - arrow.tip.y);
    const measured = measureLine(picture, line(arrow.tip, barb), [{ from: 0.4 * long, to: 0.9 * long }], pxPerMm);
    return measured ? (crossingOf(shaft, measured.line) ?? []) : [];
  });
  if (crossings.length === 0) return undefined;
  const t = crossings.reduce((sum, value) => sum + value, 0) / crossings.length;
  const tip = {
    x: shaft.start.x + (shaft.end.x - shaft.start.x) * t,
    y: shaft.start.y + (shaft.end.y - shaft.start.y) * t,
  };
  return Math.hypot(tip.x - arrow.tip.x, tip.y - arrow.tip.y) < 1.2 * pxPerMm ? tip : undefined;
};
