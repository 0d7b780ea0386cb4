import { formatLength, formatSigned } from '../pattern/format-length.ts';
import type { Units } from '../pattern/pattern.ts';

/** A length for a column whose unit is said once: `12.70`, `0.500 (1/2)`. */
export const figure = (mm: number, units: Units): string => withoutUnit(formatLength(mm, units));

/** As `figure`, with its sign. */
export const signedFigure = (mm: number, units: Units): string => withoutUnit(formatSigned(mm, units));

const withoutUnit = (text: string): string => text.replace(/ (mm|in)(?= |$)/, '');
