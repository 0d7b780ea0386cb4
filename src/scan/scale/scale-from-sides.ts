import { MM_PER_INCH } from '../../pattern/format-length.ts';
import type { Matrix } from '../../geometry/matrix.ts';
import { inverse } from '../../geometry/matrix.ts';
import { magnitude, turn, type Vector } from '../../geometry/vector.ts';
import type { ScanScale } from '../traced.ts';
import { meetSides, type Corners, type StraightLine } from './meet-sides.ts';

/** One side of a square as it was measured, in pixels; the point is about its middle. */
export interface MeasuredSide extends StraightLine {
  /** Squares of the standard errors of its place across, and of its direction in radians. */
  readonly placeVariance: number;
  readonly directionVariance: number;
}

export type FourSides = readonly [MeasuredSide, MeasuredSide, MeasuredSide, MeasuredSide];

/**
 * The scale that makes four measured sides, clockwise, a square of the given side in millimetres: the affine map by least squares of the
 * corners. With the square's own middle and sides as axes that has a closed form: millimetre axes go to half the sums of opposite sides,
 * and what is left is the same at each corner, so that it does not matter whether pixels or millimetres are made least. Of the four
 * quarter turns the one nearest to upright is taken; the picture's own corner (0, 0) stays the origin.
 *
 * `doubt` is a standard error, carried over from the sides to how much any direction stretches (both scales and the shear), and from the
 * misfit as a share of the side: paper or print that spoils a corner by so much may have spoilt the sides as much. Undefined for sides
 * that enclose nothing.
 */
export const scaleFromSides = (sides: FourSides, side: number): ScanScale | undefined => {
  const corners = meetSides(sides);
  if (corners === undefined) return undefined;
  const first = uprightCorner(corners);
  if (first < 0) return undefined;
  const [a, b, c, d] = [0, 1, 2, 3].map((i) => corners[(first + i) % 4]!) as unknown as Corners;
  const across = { dx: (b.x + c.x - a.x - d.x) / (2 * side), dy: (b.y + c.y - a.y - d.y) / (2 * side) };
  const down = { dx: (c.x + d.x - a.x - b.x) / (2 * side), dy: (c.y + d.y - a.y - b.y) / (2 * side) };
  const toMm = inverse({ a: across.dx, b: across.dy, c: down.dx, d: down.dy, e: 0, f: 0 });
  if (!Number.isFinite(toMm.a)) return undefined;
  const left = { dx: (a.x - b.x + c.x - d.x) / 4, dy: (a.y - b.y + c.y - d.y) / 4 };
  const misfit = magnitude({ dx: toMm.a * left.dx + toMm.c * left.dy, dy: toMm.b * left.dx + toMm.d * left.dy });
  const pxPerMm = (magnitude(across) + magnitude(down)) / 2;
  const strain = Math.sqrt(strainVariance(sides, side * pxPerMm) + (misfit / side) ** 2);
  return { how: 'test-square', side, toMm, ...shapeOf(toMm), corners, misfit, doubt: 100 * strain };
};

/** Pixels to the inch, turn and shear of a map from the picture to millimetres. */
const shapeOf = (toMm: Matrix): Pick<ScanScale, 'dpi' | 'turn' | 'shear'> => {
  const row: Vector = { dx: toMm.a, dy: toMm.b };
  const column: Vector = { dx: toMm.c, dy: toMm.d };
  return {
    dpi: { x: MM_PER_INCH / magnitude(row), y: MM_PER_INCH / magnitude(column) },
    turn: turn(row, { dx: 1, dy: 0 }),
    shear: turn(row, column) - Math.PI / 2,
  };
};

/** The corner from which the side runs nearest to along the rows; -1 where corners fall together. */
const uprightCorner = (corners: Corners): number => {
  const alongRow = corners.map((corner, i) => {
    const next = corners[(i + 1) % 4]!;
    return (next.x - corner.x) / Math.hypot(next.x - corner.x, next.y - corner.y);
  });
  return alongRow.indexOf(Math.max(...alongRow));
};

/**
 * The square of the standard error of a stretch in the worst direction, by the sum of squares of the strain's parts, which bounds it: the
 * widths between opposite sides at their middles, and twice the shear, half the difference between the mean directions of the pairs.
 */
const strainVariance = (sides: FourSides, length: number): number => {
  const widths = sides.reduce((sum, { placeVariance }) => sum + placeVariance, 0);
  const shear = sides.reduce((sum, { directionVariance }) => sum + directionVariance, 0) / 16;
  return widths / length ** 2 + 2 * shear;
};
