import type { LevelHeight } from '../alterations/heights/level-heights.ts';
import type { GirthChange } from '../alterations/shape-change.ts';
import { figure, signedFigure } from '../cli/figure.ts';
import { tableText } from '../cli/table-text.ts';
import type { Units } from '../pattern/pattern.ts';

/** Where each level lay and lies, and round the body there: what matters where levels move and widths do not. */
export const heightTable = (heights: readonly LevelHeight[], girth: readonly GirthChange[], units: Units): string => {
  const rows = heights.map(({ level, before, after }) => {
    const round = girth.find((row) => row.level === level);
    const girths = round ? [figure(round.after, units), signedFigure(round.after - round.before, units)] : ['-', '-'];
    return [level, figure(before, units), figure(after, units), ...girths];
  });
  const half = girth[0]?.side;
  const table = tableText(
    [
      `in ${units === 'in' ? 'inches' : 'mm'}`,
      'height before',
      'height now',
      `${half === undefined ? 'girth' : `${half} half`} now`,
      'change',
    ],
    rows,
  );
  return `${table}\nHeights are from the line on which the waist lay, - below it.\n`;
};

export const heightsJson = (heights: readonly LevelHeight[]): Record<string, unknown> => ({
  heights: heights.map(({ level, before, after }) => ({ level, before_mm: before, after_mm: after })),
});
