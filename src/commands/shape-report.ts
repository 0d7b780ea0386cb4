/** The parts of a report that every alteration shares. */

import type { EdgeChange, GirthChange, ShapeChange } from '../alterations/shape-change.ts';
import { figure, signedFigure } from '../cli/figure.ts';
import { tableText } from '../cli/table-text.ts';
import { formatLength } from '../pattern/format-length.ts';
import type { Side } from '../pattern/panel.ts';
import type { Units } from '../pattern/pattern.ts';

/** A column of figures of its own, one for each level. */
export interface LevelColumn {
  readonly head: string;
  readonly mm: (level: string) => number;
}

/** The girths before and after at every level, with further columns between the level and its girth. */
export const girthTable = (girth: readonly GirthChange[], units: Units, columns: readonly LevelColumn[] = []): string =>
  tableText(
    [
      `in ${units === 'in' ? 'inches' : 'mm'}`,
      ...columns.map(({ head }) => head),
      girth[0]?.side === undefined ? 'girth before' : `${girth[0].side} half before`,
      'after',
      'change',
    ],
    girth.map(({ level, before, after }) => [
      level,
      ...columns.map(({ mm }) => figure(mm(level), units)),
      figure(before, units),
      figure(after, units),
      signedFigure(after - before, units),
    ]),
  );

/** `back: top 80.00 mm, now 67.30 mm; ...`: a line for each panel with edges whose length changed to be seen. */
export const edgesLines = (edges: readonly EdgeChange[], units: Units): string[] =>
  [...new Set(edges.map(({ panel }) => panel))].flatMap((name) => {
    const changed = edges
      .filter(({ panel }) => panel === name)
      .map(({ edge, before, after }) => ({ edge, was: formatLength(before, units), is: formatLength(after, units) }))
      .filter(({ was, is }) => was !== is)
      .map(({ edge, was, is }) => `${edge} ${was}, now ${is}`);
    return changed.length === 0 ? [] : [`${name}: ${changed.join('; ')}`];
  });

/** What a sum of widths is of: `round the body`, or `round the left half` where only that side was looked at. */
export const roundWords = (side: Side | undefined): string =>
  side === undefined ? 'round the body' : `round the ${side} half`;

/** Girths and edges as JSON. */
export const shapeJson = ({ girth, edges }: ShapeChange): Record<string, unknown> => ({
  levels: girth.map(({ level, before, after, side }) => ({
    level,
    ...(side === undefined ? {} : { half: side }),
    before_mm: before,
    after_mm: after,
    change_mm: after - before,
  })),
  edges: edges.map(({ panel, edge, before, after }) => ({ panel, edge, before_mm: before, after_mm: after })),
});
