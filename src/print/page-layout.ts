import type { Point } from '../geometry/point.ts';
import type { Paper } from './paper-size.ts';

/** What is laid out: closed, in its own millimetres, as points close enough together to stand for its curves. */
export interface Piece {
  readonly outline: readonly Point[];
}

/** Where a piece lies on a sheet: turned a quarter clockwise or not at all, then moved by x and y. */
export interface Placement {
  readonly piece: number;
  readonly turned: boolean;
  readonly x: number;
  readonly y: number;
}

/** One printed page: the part of a sheet that it shows, in the sheet's millimetres. */
export interface Tile {
  readonly column: number;
  readonly row: number;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Pages that are glued together, with the pieces that lie on them. Only pages that carry something are listed, row by row. */
export interface PrintSheet {
  readonly columns: number;
  readonly rows: number;
  readonly placements: readonly Placement[];
  readonly tiles: readonly Tile[];
}

/** How pages are cut up, all in millimetres: each shows `frame` and starts one `step` after the page before it. */
export interface TileGrid {
  readonly pageWidth: number;
  readonly pageHeight: number;
  readonly margin: number;
  readonly overlap: number;
  readonly frameWidth: number;
  readonly frameHeight: number;
  readonly stepX: number;
  readonly stepY: number;
}

export interface PageLayout {
  readonly paper: Paper;
  readonly landscape: boolean;
  readonly grid: TileGrid;
  readonly sheets: readonly PrintSheet[];
  /** True where the notes stand on the first page beside the pieces, at its top left; false where they have their own. */
  readonly notesOnFirstTile: boolean;
  /** The pages that each piece lies on, added up. */
  readonly parts: number;
}

/** Room that the notes take on a page that they share with pieces, in millimetres. */
export const NOTES_WIDTH = 180;
export const NOTES_HEIGHT = 257;

/** That room as a polygon of the first sheet. */
export const NOTES_CORNER: readonly Point[] = [
  { x: 0, y: 0 },
  { x: NOTES_WIDTH, y: 0 },
  { x: NOTES_WIDTH, y: NOTES_HEIGHT },
  { x: 0, y: NOTES_HEIGHT },
];

/** White kept round each piece: no line is wider than twice this. */
export const CLEARANCE = 1;

/** Where a point of a piece comes to lie on its sheet. */
export const onSheet = (placement: Placement, p: Point): Point =>
  placement.turned ? { x: placement.x - p.y, y: placement.y + p.x } : { x: placement.x + p.x, y: placement.y + p.y };

/** Where a point of a sheet lies in a piece's own coordinates. */
export const onPiece = ({ turned, x, y }: Placement, p: Point): Point =>
  turned ? { x: p.y - y, y: x - p.x } : { x: p.x - x, y: p.y - y };
