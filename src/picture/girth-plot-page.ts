import { wordsWidth } from '../ink/words-box.ts';
import { wrapText } from '../ink/wrap-text.ts';
import { shortLength } from '../pattern/format-length.ts';
import { SIDES, type Side } from '../pattern/panel.ts';
import type { Units } from '../pattern/pattern.ts';
import { columnsWidth, gapColumns, girthColumns } from './girth-plot-columns.ts';
import type { BackSpan, GirthPlotRow } from './girth-plot-row.ts';
import { LEADING, MARGIN, TYPE } from './hand.ts';
import { HEADING_HEIGHT } from './heading.ts';
import { backReach } from './laced-back.ts';
import { commonScale } from './row-of-panels.ts';
import { spreadApart } from './spread-apart.ts';

/** The widest that a picture is meant to be; the most for the laced back, and for the height of it all. */
const ROOM = { page: 340, opening: 60, height: 165 } as const;

/** The least and the most for the plot across, and the most for a level's name. */
const [NARROWEST, WIDEST, LONGEST_NAME] = [56, 120, 46] as const;

/** Of the garment beside each laced edge. */
const LEAST_PART = 18;

/** Free beside figures on the garment. */
export const PART_AIR = 1;

/** Between names and plot, plot and figures, figures and back, back and its figures. */
const BETWEEN = [6, 6, 7, 5] as const;

/** Above the plot, for its axis and the heads of columns. */
const ABOVE = 15;

/** From one line of figures to the next. */
export const LINE = TYPE.figure * LEADING;

/** Where everything lies on the picture. */
export interface PlotPage {
  readonly scale: number;
  readonly width: number;
  /** From millimetres below the waist to the picture. */
  readonly y: (mm: number) => number;
  /** Where each level's name and figures stand: at its height, or a little off where levels lie close. */
  readonly told: readonly number[];
  readonly names: number;
  readonly plot: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };
  readonly figures: number;
  readonly figuresEnd: number;
  readonly back: { readonly left: number; readonly right: number; readonly centre: number; readonly part: number };
  readonly gaps: number;
}

/** A page as wide as a picture is meant to be, or wider where the figures need it; at the largest scale of whole numbers that fits. */
export const girthPlotPage = (
  rows: readonly GirthPlotRow[],
  {
    spans,
    units,
    side,
  }: { readonly spans: Readonly<Record<Side, BackSpan>>; readonly units: Units; readonly side?: Side },
): PlotPage => {
  const sides = side === undefined ? [spans.left, spans.right] : [spans[side]];
  const top = Math.min(...sides.map((span) => span.top), ...rows.map(({ y }) => y));
  const bottom = Math.max(...sides.map((span) => span.bottom), ...rows.map(({ y }) => y));
  const reach = backReach(rows);
  const box = { minX: -reach, maxX: reach, minY: top, maxY: bottom };
  const scale = commonScale([[{ box, waist: 0 }]], { width: ROOM.opening, height: ROOM.height, gap: 0 });
  const lines = spreadApart(
    rows.map(({ y }) => (y - top) * scale),
    LINE,
  );
  const lift = Math.max(0, LINE / 2 - Math.min(...lines));
  const frameTop = HEADING_HEIGHT + ABOVE;
  const from = frameTop + lift;
  const frameBottom = from + Math.max((bottom - top) * scale, Math.max(...lines) + LINE / 2);

  const [girths, gaps] = [columnsWidth(girthColumns(rows, units)), columnsWidth(gapColumns(rows, units))];
  const part = Math.max(
    LEAST_PART,
    ...halvesTold(rows, units).map(({ text }) => wordsWidth(text, TYPE.small) + 2 * PART_AIR),
  );
  const backWidth = 2 * (reach * scale + part);
  const names = MARGIN + Math.max(...rows.map(({ level }) => wordsWidth(nameWithin(level), TYPE.figure)));
  const plotLeft = names + BETWEEN[0];
  const others = girths + backWidth + gaps + BETWEEN[1] + BETWEEN[2] + BETWEEN[3] + MARGIN;
  const plotRight = plotLeft + Math.min(WIDEST, Math.max(NARROWEST, ROOM.page - plotLeft - others));
  const figures = plotRight + BETWEEN[1];
  const figuresEnd = figures + girths;
  const backLeft = figuresEnd + BETWEEN[2];
  return {
    scale,
    width: plotRight + others,
    y: (mm) => from + (mm - top) * scale,
    told: lines.map((line) => from + line),
    names,
    plot: { left: plotLeft, right: plotRight, top: frameTop, bottom: frameBottom },
    figures,
    figuresEnd,
    back: { left: backLeft, right: backLeft + backWidth, centre: backLeft + backWidth / 2, part },
    gaps: backLeft + backWidth + BETWEEN[3],
  };
};

/** A level's name, cut where it is longer than a picture has room for. */
export const nameWithin = (level: string): string => wrapText(level, TYPE.figure, LONGEST_NAME, 1)[0] ?? level;

/** Where the halves differ: from the centre back to each edge. */
export const halvesTold = (
  rows: readonly GirthPlotRow[],
  units: Units,
): readonly { readonly side: Side; readonly row: number; readonly text: string }[] => {
  const both = rows.flatMap(({ fromCentre: { left, right } }, row) =>
    left === undefined || right === undefined ? [] : [{ row, left, right }],
  );
  if (both.every(({ left, right }) => left === right)) return [];
  return both.flatMap(({ row, ...halves }) =>
    SIDES.map((side) => ({ side, row, text: shortLength(halves[side], units, true) })),
  );
};
