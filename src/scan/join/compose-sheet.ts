/**
 * The one picture of a whole sheet. Every pixel is read once from each scan that shows it, by cubic interpolation in light, and scans are
 * mixed by how far inside each the place lies, so that one fades into the other over the whole overlap. Row after row: besides the
 * scans and the result nothing of their size is kept.
 */
import { compose, inverse, scaling, translation, type Matrix } from '../../geometry/matrix.ts';
import { transformPoint } from '../../geometry/transform-path.ts';
import type { Picture } from '../picture.ts';
import { resampleRow } from './resample-row.ts';
import { cornersOfPart, type PlacedScan } from './scan-to-join.ts';
import { surroundings } from './surroundings.ts';

/** The size of the sheet's picture and where it lies. */
export interface SheetGrid {
  readonly width: number;
  readonly height: number;
  /** From places in the picture to the sheet's millimetres. */
  readonly toSheet: Matrix;
}

/** The grid that holds all scans, at `pxPerMm`. */
export const sheetGrid = (scans: readonly PlacedScan[], pxPerMm: number): SheetGrid => {
  const corners = scans.flatMap(({ part, toSheet }) => cornersOfPart(part).map((p) => transformPoint(p, toSheet)));
  const left = Math.min(...corners.map(({ x }) => x));
  const top = Math.min(...corners.map(({ y }) => y));
  return {
    width: Math.ceil((Math.max(...corners.map(({ x }) => x)) - left) * pxPerMm),
    height: Math.ceil((Math.max(...corners.map(({ y }) => y)) - top) * pxPerMm),
    toSheet: compose(translation(left, top), scaling(1 / pxPerMm)),
  };
};

/** Grey values by light, in steps fine enough that every grey value comes back as itself. */
const GREYS = 16_383;
const GREY_OF: Uint8Array = Uint8Array.from({ length: GREYS + 1 }, (_, i) => {
  const light = i / GREYS;
  return Math.round(255 * (light <= 0.0031308 ? light * 12.92 : 1.055 * light ** (1 / 2.4) - 0.055));
});

/** Outside all scans, the light is worked out once for so many pixels of a row. */
const FILL = 16;

/** One scan's share in a row: the pixels from `from` up to `to`, the first read at (x, y), each next (a, b) on. */
interface Span {
  readonly scan: PlacedScan;
  readonly over: Matrix;
  readonly from: number;
  readonly to: number;
}

/** The pixels of row y whose middles lie in the part of a scan. */
const spanOf = (scan: PlacedScan, over: Matrix, y: number, width: number): Span => {
  let from = 0;
  let to = width;
  const within = (slope: number, start: number, low: number, high: number): void => {
    // low <= slope (i + 1/2) + start <= high
    if (Math.abs(slope) * width < Number.EPSILON) {
      if (start < low || start > high) to = 0;
      return;
    }
    const one = (low - start) / slope - 0.5;
    const other = (high - start) / slope - 0.5;
    from = Math.max(from, Math.ceil(Math.min(one, other)));
    to = Math.min(to, Math.floor(Math.max(one, other)) + 1);
  };
  const { left, top, right, bottom } = scan.part;
  within(over.a, over.c * (y + 0.5) + over.e, left, right);
  within(over.b, over.d * (y + 0.5) + over.f, top, bottom);
  return { scan, over, from, to };
};

/** Draws the sheet. */
export const composeSheet = (scans: readonly PlacedScan[], grid: SheetGrid): Picture => {
  const { width, height, toSheet } = grid;
  const grey = new Uint8Array(width * height);
  const lightOutside = surroundings(scans);
  const maps = scans.map((scan) => compose(inverse(scan.toSheet), toSheet));
  const light = new Float32Array(width);
  const sum = new Float32Array(width);
  const weights = new Float32Array(width);
  const write = (row: number, from: number, to: number, lights: Float32Array): void => {
    for (let i = from; i < to; i++) {
      const value = lights[i]!;
      grey[row + i] = GREY_OF[value <= 0 ? 0 : value >= 1 ? GREYS : (value * GREYS + 0.5) | 0]!;
    }
  };
  for (let y = 0; y < height; y++) {
    const row = y * width;
    const spans = scans.map((scan, k) => spanOf(scan, maps[k]!, y, width)).filter(({ from, to }) => from < to);
    const cuts = [...new Set([0, width, ...spans.flatMap(({ from, to }) => [from, to])])].toSorted((a, b) => a - b);
    for (let k = 0; k + 1 < cuts.length; k++) {
      const from = cuts[k]!;
      const to = cuts[k + 1]!;
      const showing = spans.filter((span) => span.from <= from && span.to >= to);
      if (showing.length === 0) {
        for (let i = from; i < to; i += FILL) {
          const end = Math.min(to, i + FILL);
          const at = transformPoint({ x: (i + end) / 2, y: y + 0.5 }, toSheet);
          light.fill(lightOutside(at.x, at.y), i, end);
        }
        write(row, from, to, light);
      } else if (showing.length === 1) {
        const { scan, over } = showing[0]!;
        resampleRow(scan.picture, over, y, from, to, light);
        write(row, from, to, light);
      } else {
        sum.fill(0, from, to);
        weights.fill(0, from, to);
        for (const { scan, over } of showing) {
          resampleRow(scan.picture, over, y, from, to, light);
          addWeighted(scan, over, y, from, to, light, sum, weights);
        }
        for (let i = from; i < to; i++) sum[i]! /= weights[i]!;
        write(row, from, to, sum);
      }
    }
  }
  return { width, height, grey };
};

/** Adds a scan's light, weighted by the square of the distance to its nearest border: its outermost rows are its worst. */
const addWeighted = (
  { part, toSheet }: PlacedScan,
  over: Matrix,
  y: number,
  from: number,
  to: number,
  light: Float32Array,
  sum: Float32Array,
  weights: Float32Array,
): void => {
  const size = Math.hypot(toSheet.a, toSheet.b);
  for (let i = from; i < to; i++) {
    const u = over.a * (i + 0.5) + over.c * (y + 0.5) + over.e;
    const v = over.b * (i + 0.5) + over.d * (y + 0.5) + over.f;
    const inside = size * Math.min(u - part.left, part.right - u, v - part.top, part.bottom - v);
    const weight = inside * inside + 0.0001;
    sum[i]! += weight * light[i]!;
    weights[i]! += weight;
  }
};
