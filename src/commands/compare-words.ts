/** Words and cells that the parts of a comparison share. */

import { signedFigure } from '../cli/figure.ts';
import { UNCHANGED, type Both } from '../measure/compare/comparison.ts';
import type { Units } from '../pattern/pattern.ts';

/** Less than this is told in one line for all: no pencil draws it. Millimetres. */
export const SLIGHT = 0.1;

/** The corner of a table. */
export const inWords = (units: Units): string => `in ${units === 'in' ? 'inches' : 'mm'}`;

/** A move with its sign; nothing that would show is a bare 0. */
export const moveCell = (mm: number | undefined, units: Units): string => {
  if (mm === undefined) return '-';
  const text = signedFigure(mm, units);
  return /[1-9]/.test(text) ? text : '0';
};

/** `front`, `front and back`, `front, side and back`. */
export const listed = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)!}`;

/** Whether two figures are alike in both versions. */
export const areAlike = (one: Both, other: Both): boolean =>
  [
    [one.before, other.before],
    [one.after, other.after],
  ].every(([a, b]) => (a === undefined || b === undefined ? a === b : Math.abs(a - b) <= UNCHANGED));
