import { pathBox } from '../geometry/box.ts';
import { pathLength } from '../geometry/arc-length.ts';
import type { Matrix } from '../geometry/matrix.ts';
import { transformPath, transformPoint } from '../geometry/transform-path.ts';
import type { Mark, Scene, Words } from '../ink/scene.ts';
import { wordsWidth } from '../ink/words-box.ts';
import { wrapText } from '../ink/wrap-text.ts';
import { shortLength } from '../pattern/format-length.ts';
import { girthAt, levelCalled } from '../pattern/girth-at.ts';
import { findLevel, levelNames } from '../pattern/look-up.ts';
import { outlineOf } from '../pattern/outline.ts';
import type { Panel } from '../pattern/panel.ts';
import type { Pattern, Units } from '../pattern/pattern.ts';
import { widthAt } from '../pattern/width-at.ts';
import { HAIR, LEADING, MARGIN, TYPE } from './hand.ts';
import { centred, straight } from './marks.ts';
import { panelDrawing, panelName } from './panel-drawing.ts';
import { panelsAsWorn, waistLine } from './panels-as-worn.ts';
import { rowOfPanels, scaleWords, type PanelRow } from './row-of-panels.ts';
import { facingEdges, seamLabels, type RowGap } from './seam-labels.ts';
import { spreadApart } from './spread-apart.ts';
import { widthFigure } from './width-figure.ts';

export interface PictureOptions {
  readonly title: string;
  /** Names the version; its first characters are shown. */
  readonly hash: string;
  readonly units: Units;
}

/** The largest that a row of panels is drawn, and the gap in which a seam's name stands; on the picture. */
const [MOST_WIDTH, MOST_HEIGHT, GAP] = [340, 230, 13] as const;

/** Between the row and the columns beside it. */
const COLUMN_GAP = 11;

/** Room above the row for the lengths of top edges, and below it for those of bottom edges. */
const EDGE_WORDS = TYPE.small * 1.8;

/** A level as it is told beside the row. */
interface ToldLevel {
  readonly name: string;
  readonly y: number;
  readonly girth?: number;
  /** Whether it lies equally high on every panel. */
  readonly isLevel: boolean;
}

/**
 * The pattern for the wall of a workroom: panels side by side on the waist line as they lie round the body, levels across with the width of each
 * panel and the girth round the body, seams with the lengths of their edges. Depends on its arguments alone.
 */
export const panelsScene = (pattern: Pattern, options: PictureOptions): Scene => {
  const { units } = options;
  const panels = panelsAsWorn(pattern);
  const names = levelNames(pattern);
  const left = MARGIN + Math.max(0, ...names.map((name) => wordsWidth(name, TYPE.figure))) + COLUMN_GAP;
  const top = MARGIN + TYPE.title + 2 * TYPE.figure * LEADING + EDGE_WORDS;
  const items = panels.map((panel) => ({ box: pathBox(panel.cutting ?? outlineOf(panel)), waist: waistLine(panel) }));
  const row = rowOfPanels(items, { left, top, width: MOST_WIDTH, height: MOST_HEIGHT, gap: GAP });
  const levels = toldLevels(pattern, panels, row);
  const girths = levels.flatMap(({ girth }) => (girth === undefined ? [] : [shortLength(girth, units)]));
  const column = Math.max(0, ...[...girths, ROUND].map((text) => wordsWidth(text, TYPE.figure, 'bold')));
  const width = Math.max(row.right + COLUMN_GAP + column + MARGIN, 150);
  const foot = footLines(pattern, width - 2 * MARGIN);
  const footTop = row.bottom + EDGE_WORDS + TYPE.small * 2;
  return {
    title: options.title,
    width,
    height: footTop + foot.length * TYPE.small * LEADING + MARGIN - TYPE.small,
    marks: [
      ...heading(pattern, options, row),
      ...levels
        .filter(({ isLevel }) => isLevel)
        .map(({ y }) => straight({ x: MARGIN, y }, { x: width - MARGIN, y }, HAIR)),
      ...panels.flatMap((panel, at) => panelDrawing(panel, row.places[at]!)),
      ...panels.flatMap((panel, at) => panelWords(pattern, panel, row.places[at]!, units)),
      ...rowGaps(panels, row).flatMap((gap) => seamLabels(gap, units)),
      ...levelWords(levels, row, units),
      ...foot.map((text, at): Words => {
        const y = footTop + at * TYPE.small * LEADING;
        return { kind: 'words', text, at: { x: MARGIN, y }, size: TYPE.small };
      }),
    ],
  };
};

const ROUND = 'round the body';

const heading = (pattern: Pattern, { title, hash }: PictureOptions, row: PanelRow): Words[] => [
  { kind: 'words', text: title, at: { x: MARGIN, y: MARGIN + TYPE.title * 0.8 }, size: TYPE.title, weight: 'bold' },
  {
    kind: 'words',
    text: `${piecesWords(pattern)} · scale ${scaleWords(row.scale)} · version ${hash.slice(0, 8)}`,
    at: { x: MARGIN, y: MARGIN + TYPE.title * 0.8 + TYPE.figure * LEADING * 1.2 },
    size: TYPE.figure,
  },
];

const piecesWords = ({ pieces, panels }: Pattern): string => {
  const line = panels.some((panel) => panel.line === 'cutting') ? 'cutting lines' : 'stitching lines';
  return `${line} · ${pieces === 'pairs' ? 'half pattern, each panel cut twice' : 'left and right'}`;
};

/** How high each level lies on the picture, and how long it is round the body where that can be said. */
const toldLevels = (pattern: Pattern, panels: readonly Panel[], row: PanelRow): ToldLevel[] =>
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
      isLevel: Math.max(...heights) - Math.min(...heights) < 0.2,
      ...(isNet && isEverywhere ? { girth: girthAt(pattern, levelCalled(name)).girth } : {}),
    };
  });

const panelWords = (pattern: Pattern, panel: Panel, place: Matrix, units: Units): Mark[] => {
  const held = pattern.panels.find(({ name }) => name === panel.name)!;
  const widths = panel.levels.flatMap((level) => {
    const width = widthAt(pattern, held, levelCalled(level.name));
    const [from, to] = [level.fromX, level.toX].map((x) => transformPoint({ x, y: level.y }, place));
    return width === undefined ? [] : widthFigure(width, { fromX: from!.x, toX: to!.x, y: from!.y }, units);
  });
  const edges = panel.edges
    .filter(({ name }) => name === 'top' || name === 'bottom')
    .map(({ name, path }): Words => {
      const box = pathBox(transformPath(path, place));
      const y = name === 'top' ? box.minY - TYPE.small * 0.6 : box.maxY + TYPE.small * 1.3;
      const text = shortLength(pathLength(path), units, true);
      return { kind: 'words', text, at: { x: (box.minX + box.maxX) / 2, y }, size: TYPE.small, align: 'middle' };
    });
  return [...widths, panelName(panel, place), ...edges];
};

/** The gaps of the row from left to right, both its ends among them, each with its middle a little above the waist line. */
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
    const xs = [edgeX(at - 1, 'right'), edgeX(at, 'left')];
    const x = xs.every((each) => each !== undefined)
      ? (xs[0]! + xs[1]!) / 2
      : at === 0
        ? row.left - COLUMN_GAP / 2
        : row.right + COLUMN_GAP / 2;
    return { middle: { x, y: row.waist }, ...(left ? { left } : {}), ...(right ? { right } : {}) };
  });
};

const levelWords = (levels: readonly ToldLevel[], row: PanelRow, units: Units): Words[] => {
  const heights = spreadApart(
    levels.map(({ y }) => y),
    TYPE.figure * LEADING,
  );
  const x = row.right + COLUMN_GAP;
  const told = levels.some(({ girth }) => girth !== undefined);
  const highest = Math.min(...heights);
  return [
    ...levels.flatMap(({ name, girth }, at) => [
      centred({ text: name, at: { x: MARGIN, y: heights[at]! }, size: TYPE.figure, backed: true }),
      ...(girth === undefined
        ? []
        : [
            centred({
              text: shortLength(girth, units),
              at: { x, y: heights[at]! },
              size: TYPE.figure,
              weight: 'bold',
              backed: true,
            }),
          ]),
    ]),
    ...(told
      ? [centred({ text: ROUND, at: { x, y: highest - TYPE.figure * LEADING * 1.3 }, size: TYPE.small, backed: true })]
      : []),
  ];
};

const footLines = (pattern: Pattern, width: number): string[] => {
  const isCutting = pattern.panels.some(({ line }) => line === 'cutting');
  const what = isCutting
    ? 'Widths lie between cutting lines: seam allowance is in them, so no girth can be told.'
    : 'Widths lie between stitching lines, along the level.';
  return wrapText(
    `${what} Beside each seam stands its name and its length, of both edges where they differ.`,
    TYPE.small,
    width,
  );
};
