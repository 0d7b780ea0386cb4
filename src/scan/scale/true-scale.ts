import type { Finding } from '../../pattern/finding.ts';
import type { RoughOutline } from '../rough-outline.ts';
import { findTestSquare } from './find-test-square.ts';
import type { NominalScale } from './nominal-scale.ts';
import { SAME_SETTING, scaleFromDpi, type ScaleFound } from './scale-from-dpi.ts';
import type { SquareToMeasure } from './scale-from-square.ts';
import { rightWithin, squareName } from './scale-words.ts';

/** A square that leaves more than this of 100 mm open (a standard error, in millimetres) was printed, kept or scanned badly. */
const DOUBTFUL = 0.03;

export interface TrueScale extends ScaleFound {
  /** Outlines that are test squares, and so no panels; the one that was measured comes first. */
  readonly squares: readonly number[];
}

/**
 * The true scale of a scan: by the printed square where its side is known, else as typed, else as the file says of itself. `nominal` is
 * the scale begun with. Throws what `findTestSquare` and `scaleFromDpi` throw.
 */
export const trueScale = (
  scan: SquareToMeasure & { readonly dpi?: number | undefined },
  outlines: readonly RoughOutline[],
  answers: { readonly testSquare?: number | undefined; readonly dpi?: number | undefined },
  nominal: NominalScale,
): TrueScale => {
  const { testSquare } = answers;
  if (testSquare === undefined)
    return { ...scaleFromDpi({ typed: answers.dpi, file: scan.dpi }, scan.name), squares: [] };
  const { scale, square, others } = findTestSquare(scan, outlines, testSquare, nominal);
  const dpi = Math.sqrt(scale.dpi.x * scale.dpi.y);
  const isUnlike = scan.dpi !== undefined && Math.abs(dpi / scan.dpi - 1) > SAME_SETTING;
  const findings = [
    ...(isUnlike ? [unlikeTheFile(testSquare, dpi, scan.dpi!, scan.name)] : []),
    ...(scale.doubt! > DOUBTFUL ? [doubtful(testSquare, scale.doubt!, scan.name)] : []),
  ];
  return { scale, findings, squares: [square, ...others] };
};

const unlikeTheFile = (side: number, dpi: number, file: number, where: string): Finding => ({
  weight: 'warning',
  kind: 'square-differs',
  where,
  message: `with its square taken for ${squareName(side)} it has ${dpi.toFixed(0)} dpi; the file says ${Number(file.toFixed(1))}`,
  cure: 'measure the printed square with a ruler: is that its side?',
});

const doubtful = (side: number, doubt: number, where: string): Finding => ({
  weight: 'warning',
  kind: 'scale-doubtful',
  where,
  message: `the ${squareName(side)} square gives the scale within ${rightWithin(doubt)} mm in 100 only`,
  cure: 'scan in grey, at 300 dpi, the paper flat and the square a little turned',
});
