import { pathLength } from '../geometry/arc-length.ts';
import { pathBox } from '../geometry/box.ts';
import type { Matrix } from '../geometry/matrix.ts';
import { transformPath, transformPoint } from '../geometry/transform-path.ts';
import type { Mark, Scene, Words } from '../ink/scene.ts';
import { cutText } from '../ink/cut-text.ts';
import { wordsWidth } from '../ink/words-box.ts';
import { shortLength } from '../pattern/format-length.ts';
import { levelCalled } from '../pattern/girth-at.ts';
import { levelNames } from '../pattern/look-up.ts';
import { outlineOf } from '../pattern/outline.ts';
import type { Panel } from '../pattern/panel.ts';
import type { Pattern, Units } from '../pattern/pattern.ts';
import { widthAt } from '../pattern/width-at.ts';
import { HAIR, MARGIN, TYPE } from './hand.ts';
import { footing, heading, HEADING_HEIGHT, headingWidth } from './heading.ts';
import { columnsExtent, columnsWidth, levelColumns, toldLevels, type ToldLevel } from './level-columns.ts';
import { straight } from './marks.ts';
import { panelDrawing, panelName } from './panel-drawing.ts';
import { panelsAsWorn, waistLine, type WornRow } from './panels-as-worn.ts';
import { readableRows } from './readable-rows.ts';
import { commonScale, rowOfPanels, scaleWords, type PanelRow, type RowItem } from './row-of-panels.ts';
import { facingEdges, seamLabels, type RowGap } from './seam-labels.ts';
import { widthFigure } from './width-figure.ts';

export interface PictureOptions {
  readonly title: string;
  /** Names the version; its first characters are shown. */
  readonly hash: string;
  readonly units: Units;
}

/** The largest that a row of panels is drawn, and the gap in which a seam's name stands; on the picture. */
const ROOM = { width: 340, height: 230, gap: 13 } as const;

/** Between a row and the columns beside it; between two rows. */
const [COLUMN_GAP, ROW_GAP] = [11, 14] as const;

/** Room above a row for the lengths of top edges, and below it for those of bottom edges. */
const EDGE_WORDS = TYPE.small * 1.8;

/** By how much the heads of the columns may stand higher than the words above the panels. */
const LIFTED = 4;

/** A row in its place. */
interface LaidRow {
  readonly worn: WornRow;
  readonly row: PanelRow;
  readonly levels: readonly ToldLevel[];
  /** Of the panels, or of the words beside them where these reach lower. */
  readonly bottom: number;
}

/**
 * The pattern for the wall of a workroom: panels side by side on the waist line as they lie round the body, levels across with the width of each
 * panel and the girth round the body, seams with the lengths of their edges. Depends on its arguments alone.
 */
export const panelsScene = (pattern: Pattern, options: PictureOptions): Scene => {
  const { units, hash } = options;
  const title = cutText(options.title, TYPE.title, ROOM.width, 'bold');
  const rows = laidRows(pattern);
  const right = Math.max(...rows.map(({ row }) => row.right)) + COLUMN_GAP;
  const columns = Math.max(0, ...rows.map(({ levels, worn }) => columnsWidth(levels, worn.side, units)));
  const facts = [...piecesWords(pattern), `scale ${scaleWords(rows[0]!.row.scale)}`, `version ${hash.slice(0, 8)}`];
  const width = Math.max(right + columns, headingWidth(title, facts)) + MARGIN;
  const foot = footing(footWords(pattern, units), { top: rows.at(-1)!.bottom + EDGE_WORDS, width });
  return {
    title: options.title,
    width,
    height: foot.bottom,
    marks: [
      ...heading(title, facts),
      ...rows.flatMap(({ levels }) =>
        levels
          .filter(({ isLevel }) => isLevel)
          .map(({ y }) => straight({ x: MARGIN, y }, { x: width - MARGIN, y }, HAIR)),
      ),
      ...rows.flatMap(({ worn, row }) => worn.panels.flatMap((panel, at) => panelDrawing(panel, row.places[at]!))),
      ...rows.flatMap(({ worn, row }) =>
        worn.panels.flatMap((panel, at) => panelWords(pattern, panel, row.places[at]!, units)),
      ),
      ...rows.flatMap(({ worn, row }) => rowGaps(worn.panels, row).flatMap((gap) => seamLabels(gap, units))),
      ...rows.flatMap(({ worn, levels }) => levelColumns(levels, worn.side, { left: MARGIN, right, units })),
      ...foot.words,
    ],
  };
};

/** The rows one below the other, all at one scale. */
const laidRows = (pattern: Pattern): LaidRow[] => {
  const worn = readableRows(panelsAsWorn(pattern), itemOf, ROOM);
  const items = worn.map(({ panels }) => panels.map(itemOf));
  const scale = commonScale(items, ROOM);
  const names = levelNames(pattern).map((name) => wordsWidth(name, TYPE.figure));
  const left = MARGIN + Math.max(0, ...names) + COLUMN_GAP;
  let top = HEADING_HEIGHT + EDGE_WORDS;
  return worn.map((each, at) => {
    const laidAt = (from: number) => rowOfPanels(items[at]!, { left, top: from, scale, gap: ROOM.gap });
    const tried = laidAt(top);
    const above = top - EDGE_WORDS - columnsExtent(toldLevels(pattern, each, tried)).top - LIFTED;
    const row = above > 0 ? laidAt(top + above) : tried;
    const levels = toldLevels(pattern, each, row);
    const bottom = Math.max(row.bottom, columnsExtent(levels).bottom);
    top = bottom + ROW_GAP + 2 * EDGE_WORDS;
    return { worn: each, row, levels, bottom };
  });
};

const itemOf = (panel: Panel): RowItem => ({
  box: pathBox(panel.cutting ?? outlineOf(panel)),
  waist: waistLine(panel),
});

const isCutting = ({ panels }: Pattern): boolean => panels.some(({ line }) => line === 'cutting');

const piecesWords = (pattern: Pattern): string[] => [
  isCutting(pattern) ? 'cutting lines' : 'stitching lines',
  ...(pattern.pieces === 'pairs' ? ['half pattern, each panel cut twice'] : []),
];

const footWords = (pattern: Pattern, units: Units): string => {
  const hasLevels = levelNames(pattern).length > 0;
  const hasSeams = pattern.panels.some((panel) => facingEdges(panel).left !== undefined);
  if (!hasLevels && !hasSeams) return 'Its seams and levels have no names yet: see staywright help label.';
  const widths = isCutting(pattern)
    ? 'Widths lie between cutting lines: seam allowance is in them, so no girth can be told.'
    : 'Widths lie between stitching lines, along the level.';
  return [
    ...(hasLevels ? [widths] : []),
    ...(hasSeams ? ['Beside each seam stands its name and its length, of both edges where they differ.'] : []),
    units === 'in'
      ? 'After the nearest sixteenth stands what is left over: 2\u00a01/4\u00a0+\u00a01/32.'
      : 'In millimetres.',
  ].join(' ');
};

const panelWords = (pattern: Pattern, panel: Panel, place: Matrix, units: Units): Mark[] => {
  const held = pattern.panels.find(({ name }) => name === panel.name)!;
  const widths = panel.levels.flatMap((level) => {
    const width = widthAt(pattern, held, levelCalled(level.name));
    const [from, to] = [level.fromX, level.toX].map((x) => transformPoint({ x, y: level.y }, place));
    const height = Math.min(
      ...panel.levels.map(({ y }) => (y === level.y ? Infinity : Math.abs(y - level.y) * place.d)),
    );
    return width === undefined ? [] : widthFigure(width, { fromX: from!.x, toX: to!.x, y: from!.y, height }, units);
  });
  const edges = panel.edges
    .filter(({ name }) => name === 'top' || name === 'bottom')
    .map(({ name, path }): Words => {
      const box = pathBox(transformPath(path, place));
      const y = name === 'top' ? box.minY - TYPE.small * 0.6 : box.maxY + TYPE.small * 1.3;
      const text = shortLength(pathLength(path), units, true);
      return { kind: 'words', text, at: { x: (box.minX + box.maxX) / 2, y }, size: TYPE.small, align: 'middle' };
    });
  return [...widths, panelName(panel, place, true), ...edges];
};

/** The gaps of the row from left to right, both its ends among them, each with its middle on the waist line. */
const rowGaps = (panels: readonly Panel[], row: PanelRow): RowGap[] => {
  const sides = panels.map((panel, at) => ({ ...facingEdges(panel), place: row.places[at]! }));
  const edgeX = (at: number, side: 'left' | 'right'): number | undefined => {
    const edge = sides[at]?.[side];
    if (edge === undefined) return undefined;
    const box = pathBox(transformPath(edge.path, sides[at]!.place));
    return (box.minX + box.maxX) / 2;
  };
  return Array.from({ length: panels.length + 1 }, (_, at): RowGap => {
    const [left, right] = [sides[at - 1]?.right, sides[at]?.left];
    const [from, to] = [edgeX(at - 1, 'right'), edgeX(at, 'left')];
    const x =
      at === 0
        ? row.left - COLUMN_GAP / 2
        : from === undefined || to === undefined
          ? row.right + COLUMN_GAP / 2
          : (from + to) / 2;
    return { middle: { x, y: row.waist }, ...(left ? { left } : {}), ...(right ? { right } : {}) };
  });
};
