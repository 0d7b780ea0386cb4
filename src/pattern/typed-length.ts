import { mixedFraction, MM_PER_INCH, SIXTY_FOURTHS } from './format-length.ts';
import type { Units } from './pattern.ts';

/** A length together with how a maker types it. */
export interface TypedLength {
  readonly mm: number;
  readonly text: string;
}

/** The largest length of whole tenths of a millimetre, or sixty-fourths of an inch, that is no more than `mm` (not negative). */
export const typedLength = (mm: number, units: Units): TypedLength => {
  if (units === 'mm') {
    const tenths = Math.floor(mm * 10);
    return { mm: tenths / 10, text: `${tenths / 10}mm` };
  }
  const count = Math.floor((mm / MM_PER_INCH) * SIXTY_FOURTHS);
  return { mm: (count * MM_PER_INCH) / SIXTY_FOURTHS, text: `${mixedFraction(count)}in` };
};
