import { StaywrightError } from '../../errors.ts';
import type { Picture } from '../picture.ts';
import type { OutlineEdge } from '../rough-outline.ts';
import type { ScanScale } from '../traced.ts';
import type { SquareOutline } from './find-squares.ts';
import { measureSide } from './measure-side.ts';
import { scaleFromSides, type FourSides } from './scale-from-sides.ts';

/** A side of which less than this is clear is not trusted. */
const LEAST_GOOD = 0.5;

/** What is measured, and where it comes from. */
export interface SquareToMeasure {
  readonly picture: Picture;
  /** The scan's name in messages. */
  readonly name: string;
  readonly isBilevel?: boolean;
}

/**
 * The scale by a square of the given side in millimetres: from the middle of its ink to the middle of the ink opposite, from edge to edge
 * where it is filled or cut out. Four sides are measured in the full picture, `pxPerMm` being about its scale. On a 50 mm square at
 * 300 dpi it is right to 5 parts in 100,000. Throws an `input` error where less than half of a side is clear.
 */
export const scaleFromSquare = (
  { picture, name, isBilevel }: SquareToMeasure,
  { corners, edge }: Pick<SquareOutline, 'corners' | 'edge'>,
  side: number,
  pxPerMm: number,
): ScanScale => {
  // What surrounds a filled square is told as a line where nobody has measured its width: then its edge is read instead.
  const tries: OutlineEdge[] = edge === 'ink' ? ['ink', 'darker'] : [edge];
  const all = tries.map((each) =>
    corners.map((from, i) => measureSide(picture, from, corners[(i + 1) % 4]!, each, pxPerMm, isBilevel)),
  );
  const worstOf = (sides: (typeof all)[number]): number => Math.min(...sides.map((each) => each?.good ?? 0));
  const sides = all.find((each) => worstOf(each) >= LEAST_GOOD) ?? all[0]!;
  const worst = worstOf(sides);
  if (worst < LEAST_GOOD) {
    const at = sides.findIndex((each) => (each?.good ?? 0) === worst);
    throw unclear(
      `only ${Math.round(worst * 100)} % of the ${sideName(corners, at)} side of the test square is clear`,
      name,
    );
  }
  const scale = scaleFromSides(sides.map((each) => each!.side) as unknown as FourSides, side);
  if (scale === undefined) throw unclear('the sides of the test square enclose nothing', name);
  return scale;
};

const unclear = (message: string, name: string): StaywrightError =>
  new StaywrightError('input', message, {
    where: name,
    hint: 'scan it again, flat and with nothing over the square, or leave --test-square out and give --dpi',
  });

/** As seen in the picture, where a side's outward direction says which it is. */
const sideName = (corners: SquareOutline['corners'], at: number): string => {
  const [a, b] = [corners[at]!, corners[(at + 1) % 4]!];
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  if (Math.abs(dx) > Math.abs(dy)) return dx > 0 ? 'top' : 'bottom';
  return dy > 0 ? 'right' : 'left';
};
