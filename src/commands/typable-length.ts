import { mixedFraction, MM_PER_INCH, SIXTY_FOURTHS } from '../pattern/format-length.ts';
import type { Units } from '../pattern/pattern.ts';

/** A length this near to a sixty-fourth of an inch, in millimetres, is typed as one. */
const NEAR_ENOUGH = 0.005;

const typed = (value: number, decimals: number): string => String(Number(value.toFixed(decimals)) || 0);

/** A length as it is typed, to the nearest hundredth of a millimetre or, where it is no sixty-fourth, thousandth of an inch; never `-0`. */
export const typableLength = (mm: number, units: Units): string => {
  if (units === 'mm') return `${typed(mm, 2)}mm`;
  const count = Math.round((mm / MM_PER_INCH) * SIXTY_FOURTHS);
  const isFraction = Math.abs((count * MM_PER_INCH) / SIXTY_FOURTHS - mm) < NEAR_ENOUGH;
  return isFraction ? `${mixedFraction(count).replace(' ', '-')}in` : `${typed(mm / MM_PER_INCH, 3)}in`;
};
