import { between, distance, movePoint, type Point } from '../../geometry/point.ts';
import { leftNormal, magnitude, plus, scaled, unit, vectorTo } from '../../geometry/vector.ts';
import { edgeReader, type EdgeReader } from '../outline/edge-reader.ts';
import { ROUGH_REACH } from '../outline/measure-edge.ts';
import type { Picture } from '../picture.ts';
import type { OutlineEdge } from '../rough-outline.ts';
import { fitSide, liesOff, type SideFit } from './fit-side.ts';
import type { MeasuredSide } from './scale-from-sides.ts';

/** What is left out at each corner, where the other side reaches into the readings: the larger of a share, millimetres and pixels. */
const CORNER_SHARE = 0.04;
const CORNER_MM = 1.2;
const CORNER_PIXELS = 5;

/** Once a side is roughly known it is read so near to it, in millimetres and at least pixels; before that, so often. */
const NEAR_REACH = 0.25;
const NEAR_PIXELS = 3;
const ROUGH_READINGS = 64;

/** Each reading looks at 0.2 mm of the side or 3 pixels: on a 50 mm square so many leave nothing out, and more would say the same again. */
const MOST_READINGS = 360;

/** A reading this far off the straight side belongs to a mark or a crease: millimetres, at least pixels. */
const OFF_MM = 0.2;
const OFF_PIXELS = 1;

/**
 * Where a side stands in one pixel's grid moves each reading of an ink line by up to about this many pixels; a slanting side passes
 * through all places in the grid and evens it out, one along the rows does not, and its readings agree all the same.
 */
const GRID_ERROR = 0.02;
const GRID_ERROR_BILEVEL = 0.25;

/** Below this scatter (pixels) readings are not told apart; those of a 1-bit picture step by half a pixel. */
const LEAST_SCATTER = 0.04;
const LEAST_SCATTER_BILEVEL = 0.35;

/** A side as measured, and the share of its readings that lie on it. */
export interface SideMeasured {
  readonly side: MeasuredSide;
  readonly good: number;
}

/**
 * Measures one straight side in the full picture from about where its corners are (within 0.5 mm), clockwise: first roughly, then along
 * the line so found, at steps of about a pixel away from its corners. Undefined where there is next to nothing to read.
 */
export const measureSide = (
  picture: Picture,
  from: Point,
  to: Point,
  edge: OutlineEdge,
  pxPerMm: number,
  isBilevel = false,
): SideMeasured | undefined => {
  let side: SideMeasured | undefined = { side: guessed(from, to), good: 0 };
  const length = distance(from, to) * (1 - 2 * CORNER_SHARE);
  const clear = Math.min(length, distance(from, to) - 2 * Math.max(CORNER_MM * pxPerMm, CORNER_PIXELS));
  const near = Math.max(NEAR_REACH * pxPerMm, NEAR_PIXELS);
  const limits = isBilevel
    ? { grid: GRID_ERROR_BILEVEL, scatter: LEAST_SCATTER_BILEVEL }
    : { grid: GRID_ERROR, scatter: LEAST_SCATTER };
  const most = Math.max(OFF_MM * pxPerMm, OFF_PIXELS);
  for (const [reach, off, count] of [
    [ROUGH_REACH * pxPerMm, 2 * most, ROUGH_READINGS],
    [near, most, ROUGH_READINGS],
    [near, most, MOST_READINGS],
  ] as const) {
    const read = edgeReader(picture, edge, pxPerMm, reach);
    side = readSide(side.side, Math.max(clear, 0), count, read, { ...limits, off });
    if (side === undefined) return undefined;
  }
  return side;
};

const guessed = (from: Point, to: Point): MeasuredSide => ({
  point: between(from, to, 0.5),
  direction: unit(vectorTo(from, to)),
  placeVariance: Infinity,
  directionVariance: Infinity,
});

const readSide = (
  { point, direction }: MeasuredSide,
  length: number,
  most: number,
  read: EdgeReader,
  { off, grid, scatter }: { readonly off: number; readonly grid: number; readonly scatter: number },
): SideMeasured | undefined => {
  const count = Math.min(most, Math.floor(length));
  const normal = leftNormal(direction);
  const along = Float64Array.from({ length: count }, (_, k) => ((k + 0.5) / count - 0.5) * length);
  const offset = new Float64Array(count).fill(NaN);
  const width = new Float64Array(count).fill(NaN);
  along.forEach((at, k) => {
    const reading = read(movePoint(point, scaled(direction, at)), normal);
    if (reading === undefined) return;
    offset[k] = reading.offset;
    width[k] = reading.width ?? 0;
  });
  // A mark beside the line widens it by twice as much as it moves its middle: the width tells where both are wrong.
  liesOff(width, 2 * scatter).forEach((lies, k) => {
    if (lies) offset[k] = NaN;
  });
  const fit = fitSide({ along, offset }, off, scatter);
  if (fit === undefined) return undefined;
  const next = plus(direction, scaled(normal, fit.slope));
  return {
    good: fit.good,
    side: {
      point: movePoint(point, scaled(normal, fit.middle)),
      direction: scaled(next, 1 / magnitude(next)),
      ...variances(fit, gridError(direction.dx, direction.dy, length, grid), length),
    },
  };
};

/** What the pixel grid may still move a side by: the more rows or columns it passes through, the less. */
const gridError = (dx: number, dy: number, length: number, grid: number): number =>
  grid / (1 + Math.min(Math.abs(dx), Math.abs(dy)) * length);

const variances = (
  { middleVariance, slopeVariance }: SideFit,
  grid: number,
  length: number,
): Pick<MeasuredSide, 'placeVariance' | 'directionVariance'> => ({
  placeVariance: middleVariance + grid ** 2,
  directionVariance: slopeVariance + (grid / length) ** 2,
});
