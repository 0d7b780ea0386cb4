import { MaxRectsPacker, Rectangle } from 'maxrects-packer/dist/maxrects-packer.mjs';
import { pointsBox } from '../geometry/box.ts';
import { CLEARANCE, NOTES_HEIGHT, NOTES_WIDTH, type Piece, type Placement } from './page-layout.ts';

/** How pieces are put into sheets of one size, in millimetres. */
export interface Packing {
  readonly width: number;
  readonly height: number;
  readonly mayTurn: boolean;
  /** Keeps the top left of the first sheet for the notes. */
  readonly withNotes: boolean;
  readonly logic: 0 | 1 | 2;
}

const NOTES = -1;

/**
 * The pieces packed as rectangles into as few sheets as the packer finds, one list of placements a sheet;
 * undefined where a piece does not fit. The same pieces always come out the same way.
 * Method: maximal rectangles (Jylänki, "A Thousand Ways to Pack the Bin", 2010).
 */
export const packPieces = (pieces: readonly Piece[], packing: Packing): Placement[][] | undefined => {
  const packer = new MaxRectsPacker(packing.width, packing.height, 0, {
    smart: false,
    pot: false,
    square: false,
    allowRotation: packing.mayTurn,
    logic: packing.logic,
  });
  if (packing.withNotes) packer.add(rectangle(NOTES, NOTES_WIDTH + NOTES_GAP, NOTES_HEIGHT + NOTES_GAP, false));
  packer.addArray(
    pieces.map((piece, index) => {
      const box = pointsBox(piece.outline);
      const [width, height] = [box.maxX - box.minX + 2 * CLEARANCE, box.maxY - box.minY + 2 * CLEARANCE];
      return rectangle(index, width, height, packing.mayTurn);
    }),
  );
  if (packer.rects.some(({ oversized }) => oversized)) return undefined;
  return packer.bins.map((bin) =>
    bin.rects
      .filter((rect) => rect.data !== NOTES)
      .map((rect) => placed(pieces[rect.data]!, rect))
      .toSorted((a, b) => a.piece - b.piece),
  );
};

const NOTES_GAP = 8;

const rectangle = (index: number, width: number, height: number, mayTurn: boolean): Rectangle => {
  const rect = new Rectangle(width, height, 0, 0, false, mayTurn);
  rect.data = index;
  return rect;
};

/** Puts the box of the piece, with its clearance, at the rectangle's place. */
const placed = (piece: Piece, rect: Rectangle): Placement => {
  const box = pointsBox(piece.outline);
  const turned = rect.rot;
  const left = turned ? -box.maxY : box.minX;
  const top = turned ? box.minX : box.minY;
  return { piece: rect.data, turned, x: rect.x + CLEARANCE - left, y: rect.y + CLEARANCE - top };
};
