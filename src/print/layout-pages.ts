/**
 * Where every piece goes and which pages are printed: numbers only.
 * Many arrangements are tried (both ways of the paper, sheets of so many pages by so many, pieces upright or turned,
 * all in one row) and the one with the fewest pages is kept; of equals the one whose pieces lie on the fewest pages,
 * then with the fewest glued joints, then with the fewest turned pieces, then the first tried.
 */
import type { Point } from '../geometry/point.ts';
import { pointsBox } from '../geometry/box.ts';
import { boxOnSheet, moveOffJoints, pagesUnder } from './move-off-joints.ts';
import { neededTiles } from './needed-tiles.ts';
import { packPieces, type Packing } from './pack-pieces.ts';
import {
  CLEARANCE,
  NOTES_CORNER,
  NOTES_HEIGHT,
  NOTES_WIDTH,
  onSheet,
  type PageLayout,
  type Piece,
  type Placement,
  type PrintSheet,
  type Tile,
  type TileGrid,
} from './page-layout.ts';
import type { Paper } from './paper-size.ts';
import { rollHeights } from './roll-heights.ts';
import { tileGrid, tilesAlong } from './tile-grid.ts';

export interface LayoutRequest {
  readonly paper: Paper;
  readonly margin: number;
  readonly overlap: number;
  /** Both are tried where none is asked for. */
  readonly orientation?: 'portrait' | 'landscape';
}

/** Sheets are tried up to this many pages wider and higher than the largest piece needs. */
const MORE_COLUMNS = 4;
const MORE_ROWS = 2;
/** With more pieces than this less is tried, so that hundreds of pieces do not take long. */
const MANY_PIECES = 40;

/** At least one piece. Throws a usage error where margin and overlap leave no room on the paper. */
export const layoutPages = (pieces: readonly Piece[], request: LayoutRequest): PageLayout => {
  const ways = request.paper.roll
    ? [false]
    : request.orientation
      ? [request.orientation === 'landscape']
      : [false, true];
  const found = ways.flatMap((landscape) => {
    const grid = tileGrid(request.paper, landscape, request.margin, request.overlap);
    return arrangements(pieces, grid, request.paper).map((layout) =>
      Object.assign(layout, { paper: request.paper, landscape }),
    );
  });
  return found.reduce((best, next) => (isBetter(next, best) ? next : best));
};

type Arrangement = Omit<PageLayout, 'paper' | 'landscape'>;

const arrangements = (pieces: readonly Piece[], grid: TileGrid, paper: Paper): Arrangement[] => {
  const found: Arrangement[] = [];
  for (const withNotes of notesCanShare(grid) ? [false, true] : [false]) {
    if (!withNotes) found.push(arranged([inOneRow(pieces)], pieces, grid, paper, false));
    for (const series of packings(pieces, grid, paper, withNotes)) {
      for (const packing of series) {
        const sheets = packPieces(pieces, packing);
        if (sheets) found.push(arranged(sheets, pieces, grid, paper, withNotes));
        if (sheets && !paper.roll) {
          const moved = sheets.map((placements) => moveOffJoints(placements, pieces, grid));
          found.push(arranged(moved, pieces, grid, paper, withNotes));
        }
        if (sheets?.length === 1) break;
      }
    }
  }
  return found;
};

const notesCanShare = (grid: TileGrid): boolean =>
  grid.stepX >= NOTES_WIDTH &&
  grid.stepY >= NOTES_HEIGHT &&
  Math.max(grid.stepX - NOTES_WIDTH, grid.stepY - NOTES_HEIGHT) > 60;

/** What to try: each series goes from low sheets to higher ones and is left off once everything is on one sheet. */
const packings = (pieces: readonly Piece[], grid: TileGrid, paper: Paper, withNotes: boolean): Packing[][] => {
  const boxes = pieces.map((piece) => pointsBox(piece.outline));
  const sides = boxes.map((box) => [box.maxX - box.minX + 2 * CLEARANCE, box.maxY - box.minY + 2 * CLEARANCE] as const);
  const many = pieces.length > MANY_PIECES;
  const logics = many ? [1 as const] : [1 as const, 0 as const, 2 as const];
  return [false, true].flatMap((mayTurn) => {
    const widest = Math.max(...sides.map(([w, h]) => (mayTurn ? Math.min(w, h) : w)));
    const highest = Math.max(...sides.map(([w, h]) => (mayTurn ? Math.min(w, h) : h)));
    const columns = tilesAlong(widest, grid.frameWidth, grid.overlap);
    const rows = tilesAlong(highest, grid.frameHeight, grid.overlap);
    return upTo(columns, paper.roll ? 0 : many ? 1 : MORE_COLUMNS).flatMap((c) => {
      const width = c * grid.stepX + grid.overlap;
      const heights = paper.roll
        ? rollHeights(sides, width)
        : upTo(rows, many ? 1 : MORE_ROWS).map((r) => r * grid.stepY + grid.overlap);
      return logics.map((logic) => heights.map((height) => ({ width, height, mayTurn, withNotes, logic })));
    });
  });
};

const upTo = (first: number, more: number): number[] => Array.from({ length: more + 1 }, (_, step) => first + step);

/** In order from left to right, their tops in line. */
const inOneRow = (pieces: readonly Piece[]): Placement[] => {
  let left = 0;
  return pieces.map((piece, index) => {
    const box = pointsBox(piece.outline);
    const x = left + CLEARANCE - box.minX;
    left += box.maxX - box.minX + 2 * CLEARANCE;
    return { piece: index, turned: false, x, y: CLEARANCE - box.minY };
  });
};

const arranged = (
  sheets: readonly (readonly Placement[])[],
  pieces: readonly Piece[],
  grid: TileGrid,
  paper: Paper,
  notesOnFirstTile: boolean,
): Arrangement => ({
  grid,
  notesOnFirstTile,
  parts: sheets
    .flat()
    .reduce((sum, placement) => sum + pagesUnder(boxOnSheet(placement, pieces[placement.piece]!), grid), 0),
  sheets: sheets.map((placements, index): PrintSheet => {
    const polygons: (readonly Point[])[] = placements.map((p) =>
      pieces[p.piece]!.outline.map((point) => onSheet(p, point)),
    );
    if (notesOnFirstTile && index === 0) polygons.push(NOTES_CORNER);
    const tiles = neededTiles(polygons, grid).map((tile) => (paper.roll ? cutOff(tile, polygons) : tile));
    const columns = Math.max(...tiles.map(({ column }) => column)) + 1;
    const rows = Math.max(...tiles.map(({ row }) => row)) + 1;
    return { columns, rows, placements, tiles };
  }),
});

/** Of a roll no more is printed than carries something. */
const cutOff = (tile: Tile, polygons: readonly (readonly Point[])[]): Tile => {
  const lowest = Math.max(...polygons.map((polygon) => pointsBox(polygon).maxY)) + CLEARANCE;
  return { ...tile, height: Math.min(tile.height, Math.max(LEAST_LENGTH, lowest - tile.y)) };
};

const LEAST_LENGTH = 30;

const isBetter = (a: PageLayout, b: PageLayout): boolean => {
  const [costA, costB] = [costs(a), costs(b)];
  const at = costA.findIndex((cost, index) => cost !== costB[index]!);
  return at >= 0 && costA[at]! < costB[at]!;
};

const costs = ({ sheets, notesOnFirstTile, paper, parts }: PageLayout): number[] => {
  const tiles = sheets.flatMap((sheet) => sheet.tiles);
  const length = paper.roll ? Math.round(tiles.reduce((sum, tile) => sum + tile.height, 0)) : 0;
  const joints = sheets.reduce((sum, { tiles: own }) => sum + jointsOf(own), 0);
  const turned = sheets.flatMap((sheet) => sheet.placements).filter((placement) => placement.turned).length;
  return [tiles.length + (notesOnFirstTile ? 0 : 1), length, parts, joints, turned];
};

const jointsOf = (tiles: PrintSheet['tiles']): number => {
  const printed = new Set(tiles.map(({ row, column }) => `${row},${column}`));
  const has = (row: number, column: number): number => (printed.has(`${row},${column}`) ? 1 : 0);
  return tiles.reduce((sum, { row, column }) => sum + has(row + 1, column) + has(row, column + 1), 0);
};
