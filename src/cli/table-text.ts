const WIDTH = 80;

const GUTTER = '  ';

/**
 * Rows in columns, the first to the left and the figures to the right, each line ending in a newline.
 * Columns that do not fit in 80 characters follow in a table of their own, under the same first column.
 */
export const tableText = (head: readonly string[], rows: readonly (readonly string[])[]): string => {
  const all = [head, ...rows];
  const widths = head.map((_, at) => Math.max(...all.map((row) => widthOf(row[at] ?? ''))));
  const lineOf = (row: readonly string[], columns: readonly number[]): string => {
    const figures = columns.map((at) => ' '.repeat(widths[at]! - widthOf(row[at] ?? '')) + (row[at] ?? ''));
    const name = row[0] ?? '';
    return `${[name + ' '.repeat(widths[0]! - widthOf(name)), ...figures].join(GUTTER).trimEnd()}\n`;
  };
  return fitting(widths)
    .map((columns) => all.map((row) => lineOf(row, columns)).join(''))
    .join('\n');
};

/** The columns after the first, in groups that fit beside it. */
const fitting = ([first = 0, ...others]: readonly number[]): number[][] => {
  const groups: number[][] = [];
  let used = WIDTH;
  for (const [at, width] of others.entries()) {
    if (used + GUTTER.length + width > WIDTH) {
      groups.push([]);
      used = first;
    }
    groups.at(-1)!.push(at + 1);
    used += GUTTER.length + width;
  }
  return groups;
};

/** Columns of a terminal that a text takes: two for the wide letters of the East, none for marks that combine. */
const widthOf = (text: string): number =>
  [...text].reduce((sum, letter) => sum + (/\p{M}/u.test(letter) ? 0 : WIDE.test(letter) ? 2 : 1), 0);

const WIDE = /[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Hangul}\u3000-\u303f\uff01-\uff60]/u;
