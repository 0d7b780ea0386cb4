import { transformPoint } from '../geometry/transform-path.ts';
import type { Words } from '../ink/scene.ts';
import { wordsWidth } from '../ink/words-box.ts';
import { shortLength } from '../pattern/format-length.ts';
import { girthAt, levelCalled } from '../pattern/girth-at.ts';
import { findLevel, levelNames } from '../pattern/look-up.ts';
import type { Pattern, Units } from '../pattern/pattern.ts';
import { widthAt } from '../pattern/width-at.ts';
import { LEADING, TYPE } from './hand.ts';
import { centred } from './marks.ts';
import type { WornRow } from './panels-as-worn.ts';
import type { PanelRow } from './row-of-panels.ts';
import { spreadApart } from './spread-apart.ts';

/** A level as it is told beside a row: how high it lies on the picture, and how long it is. */
export interface ToldLevel {
  readonly name: string;
  readonly y: number;
  /** Round the body, and on the row's own half; absent where it cannot be told. */
  readonly girth?: { readonly all: number; readonly half: number };
  /** Whether it lies equally high on every panel of the row. */
  readonly isLevel: boolean;
}

/** Heights that differ by no more on the picture look the same. */
const LOOKS_LEVEL = 0.2;

export const toldLevels = (pattern: Pattern, { panels, side }: WornRow, row: PanelRow): ToldLevel[] =>
  levelNames(pattern).map((name): ToldLevel => {
    const heights = panels.flatMap((panel, at) => {
      const level = findLevel(panel, name);
      return level === undefined ? [] : [transformPoint({ x: 0, y: level.y }, row.places[at]!).y];
    });
    const isNet = pattern.panels.every(({ line }) => line === 'stitching');
    const isEverywhere = pattern.panels.every((panel) => widthAt(pattern, panel, levelCalled(name)) !== undefined);
    return {
      name,
      y: heights[0] ?? row.waist,
      isLevel: Math.max(...heights) - Math.min(...heights) < LOOKS_LEVEL,
      ...(isNet && isEverywhere ? { girth: girthsAt(pattern, name, side) } : {}),
    };
  });

const girthsAt = (pattern: Pattern, name: string, side: WornRow['side']): NonNullable<ToldLevel['girth']> => {
  const { girth, panels } = girthAt(pattern, levelCalled(name));
  const half = panels.reduce((sum, { width }, at) => sum + (pattern.panels[at]!.side === side ? width : 0), 0);
  return { all: girth, half };
};

/** Figures under one head, one for each level. */
interface Column {
  readonly head: string;
  readonly bold: boolean;
  readonly figures: readonly string[];
}

const columnsOf = (levels: readonly ToldLevel[], side: WornRow['side'], units: Units): Column[] => {
  if (levels.every(({ girth }) => girth === undefined)) return [];
  const column = (head: string, bold: boolean, of: 'all' | 'half'): Column => ({
    head,
    bold,
    figures: levels.map(({ girth }) => (girth === undefined ? '' : shortLength(girth[of], units))),
  });
  const round = column('round the body', true, 'all');
  return side === undefined ? [round] : [column(`${side} half`, false, 'half'), round];
};

/** Between two columns. */
const GAP = 5;

const widthOf = ({ head, figures }: Column): number =>
  Math.max(wordsWidth(head, TYPE.small), ...figures.map((text) => wordsWidth(text, TYPE.figure, 'bold')));

/** How much room the columns of figures take up beside a row. */
export const columnsWidth = (levels: readonly ToldLevel[], side: WornRow['side'], units: Units): number =>
  columnsOf(levels, side, units).reduce((sum, column) => sum + widthOf(column) + GAP, -GAP);

/** How high the names stand, and above them the heads of the columns. */
const heightsOf = (levels: readonly ToldLevel[]): { readonly names: readonly number[]; readonly heads: number } => {
  const names = spreadApart(
    levels.map(({ y }) => y),
    TYPE.figure * LEADING,
  );
  return { names, heads: Math.min(...names) - TYPE.figure * LEADING * 1.3 };
};

/** From the highest to the lowest that the words beside a row reach, which is more than the row where there are many levels. */
export const columnsExtent = (levels: readonly ToldLevel[]): { readonly top: number; readonly bottom: number } => {
  const { names, heads } = heightsOf(levels);
  return { top: heads - TYPE.small, bottom: Math.max(...names) + TYPE.figure };
};

/** The names of the levels from `left` on, and their girths from `right` on, under their heads. */
export const levelColumns = (
  levels: readonly ToldLevel[],
  side: WornRow['side'],
  { left, right, units }: { readonly left: number; readonly right: number; readonly units: Units },
): Words[] => {
  const { names: heights, heads: head } = heightsOf(levels);
  const names = levels.map(({ name }, at) =>
    centred({ text: name, at: { x: left, y: heights[at]! }, size: TYPE.figure, backed: true }),
  );
  let x = right;
  const columns = columnsOf(levels, side, units).flatMap((column): Words[] => {
    const from = x;
    x += widthOf(column) + GAP;
    const weight = column.bold ? ({ weight: 'bold' } as const) : {};
    const figures = column.figures.map((text, at) =>
      centred({ text, at: { x: from, y: heights[at]! }, size: TYPE.figure, ...weight, backed: true }),
    );
    return [centred({ text: column.head, at: { x: from, y: head }, size: TYPE.small }), ...figures];
  });
  return [...names, ...columns];
};
