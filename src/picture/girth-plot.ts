import { pointsPath } from '../geometry/points-path.ts';
import type { Mark, Scene, Words } from '../ink/scene.ts';
import { wrapText } from '../ink/wrap-text.ts';
import type { Side } from '../pattern/panel.ts';
import type { Units } from '../pattern/pattern.ts';
import { axisMarks, girthAxis, type GirthAxis } from './girth-plot-axis.ts';
import { columnMarks, gapColumns, girthColumns } from './girth-plot-columns.ts';
import { PLOTTED, plottedLine } from './girth-plot-lines.ts';
import { girthPlotPage, halvesTold, LINE, nameWithin, PART_AIR, type PlotPage } from './girth-plot-page.ts';
import type { BackSpan, GirthPlotRow } from './girth-plot-row.ts';
import { CHANGED, HAIR, LEADING, MARGIN, TYPE } from './hand.ts';
import { footing, heading } from './heading.ts';
import { lacedBack } from './laced-back.ts';
import { centred, straight } from './marks.ts';
import { scaleWords } from './row-of-panels.ts';

export interface GirthPlotOptions {
  readonly title: string;
  /** Short facts below the title; the scale is added to them. */
  readonly facts: readonly string[];
  readonly units: Units;
  /** The one half that was looked at. */
  readonly side?: Side;
  /** How far the laced edge of each side runs. */
  readonly spans: Readonly<Record<Side, BackSpan>>;
  /** Levels at which the reduction is over a tenth of the body. */
  readonly overTenth: readonly string[];
}

/** Below the plot, for its figures. */
const BELOW = 6;

/** Needs that are smaller look like nothing on the plot; in millimetres of the picture. */
const LEAST_BAR = 0.3;

/**
 * Body, wanted and pattern girth by level, one below the other as they lie on the body, with their figures; beside them the laced back at the same
 * heights. From level to level the lines of the plot run straight, as only the levels were measured. `rows` in any order, at least one.
 * Depends on its arguments alone.
 */
export const girthPlotScene = (given: readonly GirthPlotRow[], options: GirthPlotOptions): Scene => {
  const rows = given.toSorted((a, b) => a.y - b.y);
  const { units, title } = options;
  const page = girthPlotPage(rows, options);
  const { plot, back, told, width, scale } = page;
  const axis = girthAxis(
    rows.flatMap(({ body, wanted, pattern }) => [body, wanted, pattern]),
    units,
    plot,
  );
  const of = options.side === undefined ? 'girth' : `${options.side} half`;
  const net = axisMarks(axis, { top: plot.top, bottom: plot.bottom, of, units });
  const laced = lacedBack(rows, {
    at: { x: back.centre, y: page.y(0) },
    scale,
    part: back.part,
    spans: options.spans,
  });
  const heads = plot.top - TYPE.small * 0.8;
  const caution = cautionWords(options.overTenth, plot.bottom + BELOW, width);
  const foot = footing(footWords(units), { top: caution.bottom, width });
  const facts = [...options.facts, `scale ${scaleWords(scale)}`];
  return {
    title,
    width,
    height: foot.bottom,
    marks: [
      ...heading(...headingWithin(title, facts, width)),
      ...laced.areas,
      ...net.lines,
      ...rows.map(({ level, y }, at) => levelLine(level, page.y(y), told[at]!, page)),
      ...laced.marks,
      ...needBars(rows, axis, page.y),
      ...PLOTTED.flatMap((what) =>
        plottedLine(
          what,
          rows.map((row) => ({ level: row.level, at: { x: axis.x(row[what]), y: page.y(row.y) } })),
        ),
      ),
      ...net.words,
      ...rows.map(({ level }, at) =>
        centred({ text: nameWithin(level), at: { x: MARGIN, y: told[at]! }, size: TYPE.figure, backed: true }),
      ),
      ...columnMarks(girthColumns(rows, units), { left: page.figures, head: heads, heights: told }),
      centred({
        text: 'laced, from behind',
        at: { x: back.centre, y: heads - TYPE.small * LEADING },
        size: TYPE.small,
        align: 'middle',
      }),
      ...halfFigures(rows, page, units),
      ...columnMarks(gapColumns(rows, units), { left: page.gaps, head: heads, heights: told }),
      ...caution.words,
      ...foot.words,
    ],
  };
};

/** A hair line across the whole picture, which leaves the level's height only to reach its name and figures. */
const levelLine = (
  level: string,
  y: number,
  told: number,
  { names, plot, figures, figuresEnd, back, gaps }: PlotPage,
): Mark => ({
  kind: 'stroke',
  path: pointsPath([
    { x: names, y: told },
    { x: plot.left, y },
    { x: plot.right, y },
    { x: figures, y: told },
    { x: figuresEnd, y: told },
    { x: back.left, y },
    { x: back.right, y },
    { x: gaps, y: told },
  ]),
  style: HAIR,
  of: `level ${level}`,
});

/** What the pattern lacks, or has too much, as a bar from where it is to where it should be. */
const needBars = (rows: readonly GirthPlotRow[], axis: GirthAxis, y: PlotPage['y']): Mark[] =>
  rows
    .map((row) => ({ level: row.level, y: y(row.y), from: axis.x(row.pattern), to: axis.x(row.wanted) }))
    .filter(({ from, to }) => Math.abs(to - from) > LEAST_BAR)
    .map(({ level, y: at, from, to }) => straight({ x: from, y: at }, { x: to, y: at }, CHANGED, `needs ${level}`));

/** Where the halves differ: on each part of the back, from the centre back to its edge. */
const halfFigures = (rows: readonly GirthPlotRow[], { told, back }: PlotPage, units: Units): Words[] =>
  halvesTold(rows, units).map(({ side, row, text }): Words => {
    const y = told[row]! - TYPE.small * 0.3;
    const place = { kind: 'words', text, size: TYPE.small } as const;
    return side === 'left'
      ? { ...place, at: { x: back.left + PART_AIR, y } }
      : { ...place, at: { x: back.right - PART_AIR, y }, align: 'end' };
  });

/** Title and facts cut to the width of the picture. */
const headingWithin = (title: string, facts: readonly string[], width: number): [string, string[]] => {
  const room = width - 2 * MARGIN;
  const [line = title] = wrapText(title, TYPE.title, room, 1, 'bold');
  return [line, wrapText(facts.join(' · '), TYPE.figure, room, 1)];
};

const cautionWords = (
  levels: readonly string[],
  top: number,
  width: number,
): { readonly words: readonly Words[]; readonly bottom: number } => {
  if (levels.length === 0) return { words: [], bottom: top };
  const text = `The reduction is over a tenth of the body at ${levels.join(', ')}: plan a smaller one. Unlace at once whoever is short of breath, faint or numb.`;
  const lines = wrapText(text, TYPE.figure, width - 2 * MARGIN, 3, 'bold');
  const words = lines.map((line, at): Words => {
    const y = top + TYPE.figure * 1.5 + at * LINE;
    return { kind: 'words', text: line, at: { x: MARGIN, y }, size: TYPE.figure, weight: 'bold' };
  });
  return { words, bottom: top + lines.length * LINE };
};

const footWords = (units: Units): string =>
  [
    'Wanted is the body less the reduction less the gap wanted; the heavy bar at a level is what the pattern needs there. Only the levels were measured: between them the plot runs straight and the laced edge smoothly.',
    'The back is drawn at the same scale down and across. Thin dashes: the centre back; long dashes: the gap wanted; a broken edge: nothing was measured there.',
    units === 'in' ? 'After the nearest sixteenth stands what is left over: 2\u00a01/4\u00a0+\u00a01/32.' : '',
  ]
    .filter(Boolean)
    .join(' ');
