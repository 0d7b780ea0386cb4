/** Lengths as reports show them: at least 0.01 mm, or the decimal inch with the nearest 1/16 in beside it and the 1/64 in that are left over. */

import type { Units } from './pattern.ts';

export const MM_PER_INCH = 25.4;

/** The finest part of an inch on a maker's ruler. */
export const SIXTY_FOURTHS = 64;

/** Rounded to `decimals`, never `-0`. */
const fixed = (value: number, decimals: number): string => {
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? text.replace('-', '') : text;
};

/** A number of sixty-fourths as a mixed fraction in lowest terms: 96 is `1 1/2`, 0 is `0`, -8 is `-1/8`. */
export const mixedFraction = (sixtyFourths: number): string => {
  const size = Math.abs(sixtyFourths);
  const whole = Math.floor(size / SIXTY_FOURTHS);
  let top = size % SIXTY_FOURTHS;
  let bottom = SIXTY_FOURTHS;
  while (top > 0 && top % 2 === 0) [top, bottom] = [top / 2, bottom / 2];
  const part = top === 0 ? '' : `${top}/${bottom}`;
  const text = whole === 0 ? part || '0' : [String(whole), part].filter(Boolean).join(' ');
  return sixtyFourths < 0 ? `-${text}` : text;
};

/** The parts of an inch that are marked on every ruler. */
const SIXTEENTH = SIXTY_FOURTHS / 16;

/**
 * A number of sixty-fourths as a ruler shows it: the nearest sixteenth, then what is left over. 47 is `3/4 - 1/64`, -47 is `-3/4 + 1/64`; what is nearest to nothing
 * stands alone, 1 is `1/64`. Halfway between two sixteenths, the one nearer to nothing.
 */
const rulerFraction = (sixtyFourths: number): string => {
  const size = Math.abs(sixtyFourths);
  const nearest = Math.ceil(size / SIXTEENTH - 0.5) * SIXTEENTH;
  if (nearest === 0) return mixedFraction(sixtyFourths);
  const left = size - nearest;
  const sign = (part: number): string => (part > 0 === sixtyFourths > 0 ? '+' : '-');
  const rest = left === 0 ? '' : ` ${sign(left)} ${mixedFraction(Math.abs(left))}`;
  return `${sixtyFourths < 0 ? '-' : ''}${mixedFraction(nearest)}${rest}`;
};

/** `12.70 mm`, or `0.734 in (3/4 - 1/64)`: the decimal inch, beside it the nearest 1/16 and what is left over, to the nearest 1/64. */
export const formatLength = (mm: number, units: Units): string => {
  if (units === 'mm') return `${fixed(mm, 2)} mm`;
  const inches = mm / MM_PER_INCH;
  return `${fixed(inches, 3)} in (${rulerFraction(Math.round(inches * SIXTY_FOURTHS))})`;
};

/** What stands on a picture, where there is little room: `59.0 mm`, or the ruler's `2 5/16 + 1/64 in`; `bare` leaves out the unit. */
export const shortLength = (mm: number, units: Units, bare = false): string => {
  const unit = bare ? '' : ` ${units}`;
  if (units === 'mm') return `${fixed(mm, 1)}${unit}`;
  return `${rulerFraction(Math.round((mm / MM_PER_INCH) * SIXTY_FOURTHS))}${unit}`;
};

/** As `formatLength`, with `+` before what is larger than nothing: `+3.20 mm`. */
export const formatSigned = (mm: number, units: Units): string => {
  const text = formatLength(mm, units);
  return mm > 0 && /[1-9]/.test(text) ? `+${text}` : text;
};
