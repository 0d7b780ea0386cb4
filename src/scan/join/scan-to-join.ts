import type { Matrix } from '../../geometry/matrix.ts';
import type { Picture } from '../picture.ts';

/** One scan of a part of a sheet that was too long for the scanner. */
export interface ScanToJoin {
  /** How the maker knows it: named in errors. */
  readonly name: string;
  readonly picture: Picture;
  /** From places in the picture to millimetres: both scales and the shear are right, turn and shift may be anything. */
  readonly toMm: Matrix;
}

/** A rectangle of a picture, in picture places. */
export interface Part {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** A scan that has its place: `toSheet` leads from its places to millimetres on the whole sheet. */
export interface PlacedScan extends ScanToJoin {
  readonly toSheet: Matrix;
  /** The part that shows the sheet: without the scanner's frame. */
  readonly part: Part;
}

/** Pixels to the millimetre, the finer of both ways. */
export const finenessOf = ({ a, b, c, d }: Matrix): number => 1 / Math.min(Math.hypot(a, b), Math.hypot(c, d));

export const cornersOfPart = ({ left, top, right, bottom }: Part): { x: number; y: number }[] => [
  { x: left, y: top },
  { x: right, y: top },
  { x: right, y: bottom },
  { x: left, y: bottom },
];
