/**
 * Which of the squares in a scan is the one whose side is known.
 *
 * A printed ring goes before a filled square, that before a square cut out of paper. Among those the right one has the right size, as far
 * as the scale is known; of a pair of 50 mm and 2 in side by side, as print sheets carry them, the smaller or the larger. Several of one
 * size may all be test squares: if their scales agree, the one that fits best is taken.
 */
import { MM_PER_INCH } from '../../pattern/format-length.ts';
import { StaywrightError, usage } from '../../errors.ts';
import type { RoughOutline } from '../rough-outline.ts';
import type { ScanScale } from '../traced.ts';
import { findSquares, type SquareOutline } from './find-squares.ts';
import type { NominalScale } from './nominal-scale.ts';
import { scaleFromSquare, type SquareToMeasure } from './scale-from-square.ts';
import { squareName } from './scale-words.ts';

/** A square fits a known scale within this share; of several, one that fits so much better is meant. */
const FITS = 0.1;
const FITS_WELL = 0.04;

/** Where no scale is known, a scan has a density in between, and a test square a side in between. */
const LEAST_DPI = 75;
const MOST_DPI = 1300;

/** Scales of two squares agree within this share. */
const AGREE = 0.001;

/** 2 in to 50 mm, and how far the two of a pair may be off it. */
const INCH_PAIR = 50.8 / 50;
const PAIR_OFF = 0.004;

const MOST_LISTED = 5;

export interface TestSquare {
  readonly scale: ScanScale;
  /** The outline that was measured, and others that are test squares too: none of them is a panel. */
  readonly square: number;
  readonly others: readonly number[];
}

/**
 * Finds and measures the square of the given side (millimetres) among the rough outlines. Throws a `usage` error where there is none or
 * where several could be meant, an `input` error where it is there but cannot be read.
 */
export const findTestSquare = (
  scan: SquareToMeasure,
  outlines: readonly RoughOutline[],
  side: number,
  nominal: NominalScale,
): TestSquare => {
  const squares = findSquares(outlines);
  const sized = ofSize(squares, side, nominal);
  if (sized.length === 0) throw notFound(squares, side, nominal, scan.name);
  const rank = Math.min(...sized.map((square) => rankOf(square, outlines)));
  const ranked = sized.filter((square) => rankOf(square, outlines) === rank);
  const well = nominal.from === 'guess' ? [] : ranked.filter((square) => offBy(square, side, nominal) <= FITS_WELL);
  const meant = well.length > 0 ? well : ranked;
  const measured = measureAll(scan, meant, side);
  const one = agreed(measured) ?? ofPair(measured, side);
  if (one === undefined) throw severalMeant(meant, side, nominal, scan.name);
  const others = meant.filter((square) => square.outline !== one.outline).map((square) => square.outline);
  return { scale: one.scale, square: one.outline, others };
};

/** Squares whose size may be right. What a file says of itself is only a hint: where nothing fits it, it is left aside. */
const ofSize = (squares: readonly SquareOutline[], side: number, nominal: NominalScale): SquareOutline[] => {
  const any = squares.filter((square) => {
    const dpi = (square.side / side) * MM_PER_INCH;
    return dpi >= LEAST_DPI && dpi <= MOST_DPI;
  });
  if (nominal.from === 'guess') return any;
  const fitting = squares.filter((square) => offBy(square, side, nominal) <= FITS);
  return fitting.length > 0 || nominal.from === 'typed' ? fitting : any;
};

const offBy = ({ side }: SquareOutline, mm: number, { pxPerMm }: NominalScale): number =>
  Math.abs(side / (mm * pxPerMm) - 1);

/** Ink rings first, then what is filled or cut within something, then what lies by itself. */
const rankOf = ({ edge, outline }: SquareOutline, outlines: readonly RoughOutline[]): number => {
  if (edge === 'ink') return 0;
  return outlines[outline]!.within === undefined ? 2 : 1;
};

interface Measured {
  readonly outline: number;
  readonly scale: ScanScale;
}

/** All that can be measured; where none can, what is wrong with the first. */
const measureAll = (scan: SquareToMeasure, squares: readonly SquareOutline[], side: number): Measured[] => {
  let refused: StaywrightError | undefined;
  const measured = squares.flatMap((square): Measured[] => {
    try {
      return [{ outline: square.outline, scale: scaleFromSquare(scan, square, side, square.side / side) }];
    } catch (error) {
      if (!(error instanceof StaywrightError)) throw error;
      refused ??= error;
      return [];
    }
  });
  if (measured.length === 0 && refused !== undefined) throw refused;
  return measured;
};

/** The best fitting one where all give the same scale. */
const agreed = (measured: readonly Measured[]): Measured | undefined => {
  const spreadOf = (value: (scale: ScanScale) => number): number => {
    const values = measured.map(({ scale }) => value(scale));
    return Math.max(...values) - Math.min(...values);
  };
  const alike =
    spreadOf(({ dpi }) => Math.log(dpi.x)) <= AGREE &&
    spreadOf(({ dpi }) => Math.log(dpi.y)) <= AGREE &&
    spreadOf(({ shear }) => shear) <= AGREE;
  return alike ? measured.toSorted((a, b) => a.scale.misfit! - b.scale.misfit!)[0] : undefined;
};

/** Of squares of 50 mm and of 2 in, those of the side that is asked for, if they agree. */
const ofPair = (measured: readonly Measured[], side: number): Measured | undefined => {
  const isMetric = Math.abs(side - 50) < PAIR_OFF;
  if (!isMetric && Math.abs(side - 2 * MM_PER_INCH) > PAIR_OFF) return undefined;
  const sizes = measured.map(({ scale }) => Math.sqrt(scale.dpi.x * scale.dpi.y));
  const least = Math.min(...sizes);
  const isSmall = (size: number): boolean => size / least < 1 + PAIR_OFF;
  const isLarge = (size: number): boolean => Math.abs(size / least - INCH_PAIR) < PAIR_OFF;
  if (!sizes.every((size) => isSmall(size) || isLarge(size))) return undefined;
  return agreed(measured.filter((_, i) => (isMetric ? isSmall(sizes[i]!) : isLarge(sizes[i]!))));
};

const sizesOf = (squares: readonly SquareOutline[], { pxPerMm }: NominalScale): string => {
  const sizes = squares.slice(0, MOST_LISTED).map(({ side }) => `${(side / pxPerMm).toFixed(1)} mm`);
  return `${sizes.join(', ')}${squares.length > MOST_LISTED ? ', ...' : ''}`;
};

const byWhat = ({ from, dpi }: NominalScale): string => {
  const density = Number(dpi.toFixed(1));
  if (from === 'typed') return `at the ${density} dpi that was typed`;
  return from === 'file' ? `at the ${density} dpi of the file` : `if it was scanned at ${density} dpi`;
};

const notFound = (
  squares: readonly SquareOutline[],
  side: number,
  nominal: NominalScale,
  name: string,
): StaywrightError =>
  usage(
    squares.length === 0
      ? `${name} shows no square: four straight lines of ${squareName(side)} that close`
      : `${name} shows no square of ${squareName(side)}, but of ${sizesOf(squares, nominal)} ${byWhat(nominal)}`,
    '--test-square',
    squares.length === 0
      ? 'scan the square whole and away from other lines, or leave --test-square out and give --dpi'
      : 'give the true side of the square, or leave --test-square out and give --dpi',
  );

const severalMeant = (
  meant: readonly SquareOutline[],
  side: number,
  nominal: NominalScale,
  name: string,
): StaywrightError =>
  usage(
    `${name} shows ${meant.length} squares that could be ${squareName(side)}: ${sizesOf(meant, nominal)} ${byWhat(nominal)}`,
    '--test-square',
    nominal.from === 'typed'
      ? 'cover all but one, and scan again'
      : 'add --dpi with what the scanner was set to, or cover all but one and scan again',
  );
