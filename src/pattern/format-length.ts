/** Lengths as reports show them: at least 0.01 mm, or the nearest 1/64 in beside the decimal inch. */

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

/** `12.70 mm`, or `0.500 in (1/2)`: the decimal inch with the nearest 1/64 beside it. */
export const formatLength = (mm: number, units: Units): string => {
  if (units === 'mm') return `${fixed(mm, 2)} mm`;
  const inches = mm / MM_PER_INCH;
  return `${fixed(inches, 3)} in (${mixedFraction(Math.round(inches * SIXTY_FOURTHS))})`;
};

/** As `formatLength`, with `+` before what is larger than nothing: `+3.20 mm`. */
export const formatSigned = (mm: number, units: Units): string => {
  const text = formatLength(mm, units);
  return mm > 0 && /[1-9]/.test(text) ? `+${text}` : text;
};
