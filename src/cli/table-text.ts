import Table from 'cli-table3';

const WIDTH = 80;

const GUTTER = 2;

const BORDERS =
  'top top-mid top-left top-right bottom bottom-mid bottom-left bottom-right left left-mid mid mid-mid right right-mid'.split(
    ' ',
  );

const NO_BORDERS = { ...Object.fromEntries(BORDERS.map((name) => [name, ''])), middle: '  ' };

/**
 * Rows in columns, the first to the left and the figures to the right, ending in a newline.
 * Columns that do not fit in 80 characters follow in a table of their own, under the same first column.
 */
export const tableText = (head: readonly string[], rows: readonly (readonly string[])[]): string => {
  const widths = head.map((title, at) => Math.max(...[title, ...rows.map((row) => row[at] ?? '')].map(widthOf)));
  const blocks: number[][] = [];
  let used = WIDTH;
  for (let at = 1; at < head.length; at++) {
    if (used + GUTTER + widths[at]! > WIDTH) {
      blocks.push([]);
      used = widths[0]!;
    }
    blocks.at(-1)!.push(at);
    used += GUTTER + widths[at]!;
  }
  return blocks
    .map((block) => blockText([head, ...rows].map((row) => [0, ...block].map((at) => row[at] ?? ''))))
    .join('\n');
};

const blockText = (rows: readonly string[][]): string => {
  const table = new Table({
    chars: NO_BORDERS,
    style: { head: [], border: [], 'padding-left': 0, 'padding-right': 0 },
    colAligns: rows[0]!.map((_, at) => (at === 0 ? 'left' : 'right')),
  });
  table.push(...rows);
  const lines = table.toString().split('\n');
  return `${lines.map((line) => line.trimEnd()).join('\n')}\n`;
};

/** Close enough to break lines by: letters of the East count two. */
const widthOf = (text: string): number => [...text].reduce((sum, letter) => sum + (letter >= '\u1100' ? 2 : 1), 0);
