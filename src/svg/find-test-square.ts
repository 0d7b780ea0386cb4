import { StaywrightError } from '../errors.ts';
import { distance, type Point } from '../geometry/point.ts';
import { turn, vectorTo } from '../geometry/vector.ts';
import type { Outline } from '../pattern/drawing.ts';

/** Sides of a square may differ by this share, for drawing by hand and rounding; its corners by about as much (radians). */
const UNEVENNESS = 0.005;

/** How many squares an error lists. */
const MOST_LISTED = 5;

/** The corners of a closed path of straight lines; undefined if it has a curve. */
const cornersOf = ({ path: { segments } }: Outline): Point[] | undefined => {
  if (segments.some(({ kind }) => kind === 'cubic')) return undefined;
  return segments
    .filter((segment, i) => {
      const before = segments.at(i - 1)!;
      return Math.abs(turn(vectorTo(before.start, before.end), vectorTo(segment.start, segment.end))) > UNEVENNESS;
    })
    .map(({ start }) => start);
};

/** The mean side of a square in any position; undefined for any other shape. */
export const squareSide = (outline: Outline): number | undefined => {
  const corners = cornersOf(outline);
  if (corners?.length !== 4) return undefined;
  const sides = corners.map((corner, i) => vectorTo(corner, corners[(i + 1) % 4]!));
  const lengths = corners.map((corner, i) => distance(corner, corners[(i + 1) % 4]!));
  const mean = lengths.reduce((sum, length) => sum + length, 0) / 4;
  const even = lengths.every((length) => Math.abs(length - mean) <= UNEVENNESS * mean);
  const right = sides.every((side, i) => Math.abs(turn(side, sides[(i + 1) % 4]!) - Math.PI / 2) <= 2 * UNEVENNESS);
  return even && right ? mean : undefined;
};

/**
 * The one square among the outlines that is drawn to check the scale by, and its side as drawn: the only square, or the only one whose
 * id starts with `test`. Throws a `usage` error where there is none or where several could be meant.
 */
export const findTestSquare = (
  outlines: readonly Outline[],
  file: string,
): { readonly outline: Outline; readonly side: number } => {
  const squares = outlines.flatMap((outline) => {
    const side = squareSide(outline);
    return side === undefined ? [] : [{ outline, side }];
  });
  const named = squares.filter(({ outline }) => outline.id?.toLowerCase().startsWith('test'));
  const meant = named.length > 0 ? named : squares;
  const [only] = meant;
  if (!only) {
    throw new StaywrightError('usage', `${file} holds no square`, {
      where: '--test-square',
      hint: 'draw one whose true side you know, or give --scale',
    });
  }
  if (meant.length > 1) {
    const list = meant
      .slice(0, MOST_LISTED)
      .map(({ outline, side }) => `${outline.where} (${side.toFixed(1)} mm as drawn)`);
    const more = meant.length > MOST_LISTED ? ', ...' : '';
    throw new StaywrightError('usage', `${meant.length} squares could be meant: ${list.join(', ')}${more}`, {
      where: '--test-square',
      hint: `give the right one the id 'test-square' in the drawing program`,
    });
  }
  return only;
};
