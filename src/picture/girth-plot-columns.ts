import type { Mark, Words } from '../ink/scene.ts';
import { wordsWidth } from '../ink/words-box.ts';
import { shortLength } from '../pattern/format-length.ts';
import type { Units } from '../pattern/pattern.ts';
import { lineSample, type Plotted } from './girth-plot-lines.ts';
import type { GirthPlotRow } from './girth-plot-row.ts';
import { LEADING, TYPE } from './hand.ts';
import { centred } from './marks.ts';

/** Figures under one head, one for each level. */
export interface FigureColumn {
  readonly head: string;
  /** The line whose figures they are: its key stands above the head. */
  readonly line?: Plotted;
  readonly isBold: boolean;
  readonly figures: readonly string[];
  /** Whether the figures end, rather than begin, one below the other. */
  readonly endsMeet: boolean;
}

/** The girths and what they need, for beside the plot. */
export const girthColumns = (rows: readonly GirthPlotRow[], units: Units): readonly FigureColumn[] => [
  ...(['body', 'wanted', 'pattern'] as const).map((line) =>
    lengthColumn(
      line,
      rows.map((row) => row[line]),
      units,
      { line },
    ),
  ),
  { head: 'needs', isBold: true, endsMeet: false, figures: rows.map(({ needs }) => needsWords(needs, units)) },
];

/** The gap, for beside the laced back. */
export const gapColumns = (rows: readonly GirthPlotRow[], units: Units): readonly FigureColumn[] => [
  lengthColumn(
    'gap',
    rows.map(({ gap }) => gap),
    units,
    { isBold: true },
  ),
];

const lengthColumn = (
  head: string,
  lengths: readonly number[],
  units: Units,
  { line, isBold = false }: { readonly line?: Plotted; readonly isBold?: boolean } = {},
): FigureColumn => ({
  head,
  ...(line === undefined ? {} : { line }),
  isBold,
  endsMeet: units === 'mm',
  figures: lengths.map((mm) => shortLength(mm, units, true)),
});

const needsWords = (mm: number, units: Units): string => {
  const size = shortLength(Math.abs(mm), units, true);
  if (!/[1-9]/.test(size)) return 'nothing';
  return `${mm > 0 ? 'let out' : 'take in'} ${size}`;
};

/** Between two columns, and of a piece of line in the key. */
const [BETWEEN, SAMPLE] = [4, 17.8] as const;

/** From the middle of a head up to the middle of its key. */
const KEY_ABOVE = TYPE.small * LEADING;

const lookOf = ({ isBold }: FigureColumn) =>
  isBold ? ({ size: TYPE.figure, weight: 'bold' } as const) : { size: TYPE.small };

const widthOf = (column: FigureColumn): number => {
  const { size, weight } = { weight: 'regular' as const, ...lookOf(column) };
  return Math.max(
    column.line === undefined ? 0 : SAMPLE,
    wordsWidth(column.head, TYPE.small),
    ...column.figures.map((text) => wordsWidth(text, size, weight)),
  );
};

/** How much room columns take up side by side. */
export const columnsWidth = (columns: readonly FigureColumn[]): number =>
  columns.reduce((sum, column) => sum + widthOf(column) + BETWEEN, -BETWEEN);

/** The columns from `left` on: heads with their middle at `head`, figures at `heights`. */
export const columnMarks = (
  columns: readonly FigureColumn[],
  { left, head, heights }: { readonly left: number; readonly head: number; readonly heights: readonly number[] },
): Mark[] => {
  let next = left;
  return columns.flatMap((column): Mark[] => {
    const width = widthOf(column);
    const from = next;
    next += width + BETWEEN;
    const align = column.endsMeet ? 'end' : 'start';
    const x = column.endsMeet ? from + width : from;
    const figures = column.figures.map((text, at): Words =>
      centred({ text, at: { x, y: heights[at]! }, align, ...lookOf(column), backed: true }),
    );
    const keyX = column.endsMeet ? x - SAMPLE : x;
    return [
      ...(column.line === undefined ? [] : lineSample(column.line, { x: keyX, y: head - KEY_ABOVE }, SAMPLE)),
      centred({ text: column.head, at: { x, y: head }, size: TYPE.small, align }),
      ...figures,
    ];
  });
};
