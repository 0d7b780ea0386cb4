import { boxesMeet, pointsBox, type Box } from '../geometry/box.ts';
import type { Point } from '../geometry/point.ts';
import type { DrawnPanel } from './draw-panel.ts';
import { CLEARANCE, onSheet, type PageLayout, type Piece, type Placement } from './page-layout.ts';
import type { TilePage } from './page-names.ts';

/** A piece where it lies on its sheet, with the lines of it and the corners of the words on it. */
export interface LaidPiece extends DrawnPanel {
  readonly placement: Placement;
  readonly polygon: readonly Point[];
  readonly box: Box;
}

/** What every page needs to know of all the others. */
export interface TileContext {
  readonly layout: PageLayout;
  /** The pieces of each sheet. */
  readonly laid: readonly (readonly LaidPiece[])[];
  readonly pages: readonly TilePage[];
  readonly pageCount: number;
  /** Printed small at the foot of every page. */
  readonly footer: string;
}

/** `drawn` holds what was inked of each piece, in the piece's own coordinates. */
export const laidPieces = (layout: PageLayout, pieces: readonly Piece[], drawn: readonly DrawnPanel[]): LaidPiece[][] =>
  layout.sheets.map(({ placements }) =>
    placements.map((placement) => {
      const laid = (points: readonly Point[]): Point[] => points.map((p) => onSheet(placement, p));
      const polygon = laid(pieces[placement.piece]!.outline);
      const { words, lines } = drawn[placement.piece]!;
      return { placement, polygon, words: words.map(laid), lines: lines.map(laid), box: pointsBox(polygon) };
    }),
  );

/** The pieces that a page shows some of. */
export const shownOn = ({ sheet, tile }: TilePage, { laid }: TileContext): LaidPiece[] => {
  const frame = { minX: tile.x, minY: tile.y, maxX: tile.x + tile.width, maxY: tile.y + tile.height };
  return laid[sheet]!.filter(({ box }) => boxesMeet(box, frame, CLEARANCE));
};

/** The page that many columns to the right and rows down, if one is printed there. */
export const neighbour = (page: TilePage, right: number, down: number, { pages }: TileContext): TilePage | undefined =>
  pages.find(
    ({ sheet, tile }) =>
      sheet === page.sheet && tile.column === page.tile.column + right && tile.row === page.tile.row + down,
  );
