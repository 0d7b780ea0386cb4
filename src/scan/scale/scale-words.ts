import { MM_PER_INCH } from '../../pattern/format-length.ts';
import { degreesOf } from '../../geometry/degrees.ts';
import type { ScanScale } from '../traced.ts';

/** Standard errors within which a size is called right: chance alone goes beyond in 3 of 1000 scans. */
const SURE = 3;

/** One line for a maker: how the scale of a scan was found, and how sure it is. */
export const scaleWords = (scale: ScanScale): string => {
  const { how, dpi, side, turn, shear, misfit, doubt } = scale;
  if (how !== 'test-square') {
    const source = how === 'dpi' ? 'as typed' : 'as the file says of itself';
    return `scale: ${figureOf(dpi.x)} dpi, ${source}; how right that is nothing in the scan shows`;
  }
  const square = side === undefined ? 'test square' : `${squareName(side)} square`;
  const laid = [
    `${dpi.x.toFixed(1)} dpi along and ${dpi.y.toFixed(1)} dpi down`,
    `turned ${signed(turn, 'clockwise', 'anticlockwise')}`,
    `skewed ${Math.abs(degreesOf(shear)).toFixed(1)} degrees`,
  ].join(', ');
  const fits = misfit === undefined ? '' : `its corners fit within ${upToHundredth(misfit)} mm`;
  const right = doubt === undefined ? '' : `100 mm are right within ${rightWithin(doubt)} mm`;
  const sure = [fits, right].filter((words) => words !== '').join(', ');
  return `scale: from the ${square}, ${laid}${sure === '' ? '' : `; ${sure}`}`;
};

/** What of 100 mm a doubt leaves open, in millimetres: three standard errors, never called less than 0.01. */
export const rightWithin = (doubt: number): string => upToHundredth(SURE * doubt);

/** A square's side as it is printed beside it: `2 in` where it is eighths of an inch, else millimetres. */
export const squareName = (side: number): string => {
  const eighths = (side / MM_PER_INCH) * 8;
  const isInches = Number.isInteger(Number(eighths.toFixed(6))) && !Number.isInteger(side);
  return isInches ? `${figureOf(Number(eighths.toFixed(6)) / 8)} in` : `${figureOf(side)} mm`;
};

const figureOf = (value: number): string => String(Number(value.toFixed(3)));

/** Rounded up, so that what is promised holds. */
const upToHundredth = (mm: number): string => Math.max(0.01, Math.ceil(mm * 100) / 100).toFixed(2);

const signed = (radians: number, positive: string, negative: string): string => {
  const degrees = Math.abs(degreesOf(radians)).toFixed(1);
  if (degrees === '0.0') return '0.0 degrees';
  return `${degrees} degrees ${radians > 0 ? positive : negative}`;
};
