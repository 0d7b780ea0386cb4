import { polygonArea } from '../geometry/area.ts';
import { pointsBox } from '../geometry/box.ts';
import type { Point } from '../geometry/point.ts';
import type { RoughOutline } from './rough-outline.ts';

/** One panel among the rough outlines, with the closed lines that run round within it. */
export interface PanelOutline {
  readonly outline: RoughOutline;
  readonly within: readonly RoughOutline[];
}

/** Smaller than this either way is no panel of a garment but a ring, a letter or an arrowhead; millimetres. */
const LEAST_LENGTH = 20;
const LEAST_WIDTH = 8;

/** A line within a panel runs all round it where it encloses more than this share of the panel; less is a pocket or an ornament. */
const ROUND_SHARE = 0.4;

/** What holds the test square is its card, or a frame round it, where the square takes up more than this share of it. */
const CARD_SHARE = 0.15;

/**
 * Which rough outlines are panels: no test square (given by number), nor what was drawn in one or was drawn or cut round it, and nothing
 * too small to be one. Other large closed lines within a panel are kept beside it.
 */
export const panelOutlines = (
  outlines: readonly RoughOutline[],
  pxPerMm: number,
  squares: readonly number[],
): PanelOutline[] => {
  const areas = outlines.map(({ points }) => Math.abs(polygonArea(points)));
  const isIn = (inner: number, outer: number): boolean => holdersOf(inner, outlines).includes(outer);
  const isOfSquare = (at: number): boolean =>
    squares.some((square) => isIn(at, square) || (isIn(square, at) && areas[square]! > CARD_SHARE * areas[at]!));
  const large = outlines.map(({ points }, at) => !squares.includes(at) && !isOfSquare(at) && isLarge(points, pxPerMm));
  return outlines.flatMap((outline, at) => {
    if (!large[at] || holdersOf(at, outlines).some((outer) => large[outer])) return [];
    const round = outlines.filter((_, i) => large[i] && isIn(i, at) && areas[i]! > ROUND_SHARE * areas[at]!);
    return [{ outline, within: round }];
  });
};

/** All outlines that hold this one, the smallest first. */
const holdersOf = (at: number, outlines: readonly RoughOutline[]): number[] => {
  const outer = outlines[at]!.within;
  return outer === undefined ? [] : [outer, ...holdersOf(outer, outlines)];
};

const isLarge = (points: readonly Point[], pxPerMm: number): boolean => {
  const { minX, minY, maxX, maxY } = pointsBox(points);
  const [wide, high] = [(maxX - minX) / pxPerMm, (maxY - minY) / pxPerMm];
  return Math.max(wide, high) >= LEAST_LENGTH && Math.min(wide, high) >= LEAST_WIDTH;
};
