/** The lines of a preview, as an SVG that is laid over the picture. */
import { pathBox } from '../../geometry/box.ts';
import { pathStart, type Path } from '../../geometry/path.ts';
import type { Point } from '../../geometry/point.ts';
import type { PreviewContent } from '../preview.ts';
import { numberLines } from './number-lines.ts';

interface Size {
  readonly width: number;
  readonly height: number;
}

/** Lengths in millimetres on the paper. */
interface Pen {
  readonly colour: string;
  readonly width: number;
  readonly dash?: readonly number[];
}

const OUTLINE: Pen = { colour: '#7d1046', width: 0.16 };
const WITHIN: Pen = { colour: '#7d1046', width: 0.14, dash: [1.6, 0.8] };
const NOTCH: Pen = { colour: '#0a3d55', width: 0.36, dash: [0.7, 0.36] };
const ACROSS: Pen = { colour: '#0a3d55', width: 0.14, dash: [2.4, 0.8, 0.5, 0.8] };
const GRAIN: Pen = { colour: '#0a3d55', width: 0.2, dash: [5, 1.2] };
const ART: Pen = { colour: '#2c4619', width: 0.16, dash: [0.01, 0.5] };
const SQUARE: Pen = { colour: '#8a4b00', width: 0.18, dash: [0.9, 0.6] };
const NUMBER: Pen = { colour: '#7d1046', width: 0.4 };
const RING: Pen = { colour: '#7d1046', width: 0.14 };

/** How much white lies over the scan: ink becomes a middle grey that dark lines stand out from. */
const VEIL = 0.46;
const RING_RADIUS = 0.75;
/** The number of a panel: how high, and how far below the panel's highest point it stands. */
const NUMBER_HEIGHT = 7;
const NUMBER_BELOW = 15;
const HATCH = 2;
/** White that stays free on either side of a line, see-through so that the ink under it can still be judged. */
const HALO = 0.1;
const HALO_STRENGTH = 0.45;
/** No line is thinner than this, in pixels: it would be lost on a scan of few. */
const THINNEST = 1.1;

/** The overlay for a picture of this size, which is the scanned one times `factor`. */
export const drawPreview = (
  content: PreviewContent,
  size: Size,
  factor: Readonly<{ x: number; y: number }>,
): string => {
  const mm = content.pxPerMm * Math.sqrt(factor.x * factor.y);
  const place = ({ x, y }: Point): string => `${round(x * factor.x)} ${round(y * factor.y)}`;
  const halos: string[] = [];
  const lines: string[] = [];
  const draw = (data: string, { colour, width, dash }: Pen): void => {
    const drawn = Math.max(THINNEST, width * mm);
    const halo = drawn + 2 * Math.max(THINNEST, HALO * mm);
    const dashes = dash === undefined ? '' : ` stroke-dasharray="${dash.map((part) => round(part * mm)).join(' ')}"`;
    halos.push(`<path d="${data}" stroke-width="${round(halo)}"/>`);
    lines.push(`<path d="${data}" stroke="${colour}" stroke-width="${round(drawn)}"${dashes}/>`);
  };
  const along = (path: Path, pen: Pen): void => draw(pathData(path, place), pen);

  const { panels, square } = content;
  const ground = square === undefined ? '' : hatched(square.map(place), mm);
  if (square !== undefined) draw(`M${square.map(place).join('L')}Z`, SQUARE);
  for (const { marks } of panels) {
    for (const path of marks?.art ?? []) along(path, ART);
    for (const line of marks?.across ?? []) along({ segments: [line] }, ACROSS);
    for (const line of marks?.grain ?? []) along({ segments: [line] }, GRAIN);
  }
  for (const { within = [], outline } of panels) {
    for (const path of within) along(path, WITHIN);
    along(outline, OUTLINE);
  }
  for (const [at, { outline }] of panels.entries()) {
    const { minX, maxX, minY } = pathBox(outline);
    const top = { x: (minX + maxX) / 2, y: minY + NUMBER_BELOW * content.pxPerMm };
    for (const line of numberLines((content.first ?? 1) + at, top, NUMBER_HEIGHT * content.pxPerMm)) {
      draw(`M${line.map(place).join('L')}`, NUMBER);
    }
  }
  for (const { marks, corners } of panels) {
    for (const line of marks?.notches ?? []) along({ segments: [line] }, NOTCH);
    for (const corner of corners) draw(ring(corner, factor, mm), RING);
  }
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${size.width}" height="${size.height}" fill="none">` +
    `<rect width="100%" height="100%" fill="#fff" fill-opacity="${VEIL}"/>${ground}` +
    `<g stroke="#fff" stroke-opacity="${HALO_STRENGTH}" stroke-linejoin="round">${halos.join('')}</g>` +
    `<g stroke-linejoin="round" stroke-linecap="round">${lines.join('')}</g></svg>`
  );
};

const pathData = (path: Path, place: (p: Point) => string): string =>
  path.segments.reduce(
    (data, segment) =>
      segment.kind === 'line'
        ? `${data}L${place(segment.end)}`
        : `${data}C${place(segment.startHandle)} ${place(segment.endHandle)} ${place(segment.end)}`,
    `M${place(pathStart(path))}`,
  );

const ring = ({ x, y }: Point, factor: Readonly<{ x: number; y: number }>, mm: number): string => {
  const r = round(Math.max(4, RING_RADIUS * mm));
  const [left, middle] = [round(x * factor.x - r), round(y * factor.y)];
  return `M${left} ${middle}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`;
};

/** Slanting lines within the corners. */
const hatched = (corners: readonly string[], mm: number): string => {
  const step = round(HATCH * mm);
  return (
    `<defs><pattern id="hatch" width="${step}" height="${step}" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">` +
    `<path d="M0 0V${step}" stroke="${SQUARE.colour}" stroke-width="${round(Math.max(1, 0.1 * mm))}"/></pattern></defs>` +
    `<path d="M${corners.join('L')}Z" fill="url(#hatch)" fill-opacity="0.6"/>`
  );
};

/** To a hundredth of a pixel, and never `-0`. */
const round = (value: number): number => Math.round(value * 100) / 100 + 0;
