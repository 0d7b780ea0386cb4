import { boxesMeet, pointsBox, type Box } from '../geometry/box.ts';
import { CLEARANCE, onSheet, type Piece, type Placement, type TileGrid } from './page-layout.ts';

/** How many pages it takes to show a box, if none of them is shared with care: what a maker has to join to cut it out. */
export const pagesUnder = (box: Box, grid: TileGrid): number =>
  pagesAlong(box.minX, box.maxX, grid.frameWidth, grid.stepX) *
  pagesAlong(box.minY, box.maxY, grid.frameHeight, grid.stepY);

const pagesAlong = (min: number, max: number, frame: number, step: number): number =>
  Math.max(1, Math.ceil((max - frame) / step) - Math.max(0, Math.floor(min / step)) + 1);

export const boxOnSheet = (placement: Placement, piece: Piece): Box =>
  pointsBox(piece.outline.map((p) => onSheet(placement, p)));

/**
 * The pieces of a sheet moved on to where the next page begins, across or down, each one that then lies on fewer pages:
 * a tip at the foot of a page is one joint too many. None comes to lie on another or leaves the columns and rows in use.
 */
export const moveOffJoints = (
  placements: readonly Placement[],
  pieces: readonly Piece[],
  grid: TileGrid,
): readonly Placement[] => {
  const moved = placements.map((placement) => ({ placement, box: boxOnSheet(placement, pieces[placement.piece]!) }));
  const endX = Math.max(...moved.map(({ box }) => pageEnd(box.maxX, grid.frameWidth, grid.stepX)));
  const endY = Math.max(...moved.map(({ box }) => pageEnd(box.maxY, grid.frameHeight, grid.stepY)));
  for (const one of moved.toSorted((a, b) => b.box.minY - a.box.minY || b.box.minX - a.box.minX)) {
    const [dx, dy] = [toNextPage(one.box.minX, grid.stepX), toNextPage(one.box.minY, grid.stepY)];
    const now = pagesUnder(one.box, grid);
    for (const [x, y] of [
      [0, dy],
      [dx, 0],
      [dx, dy],
    ] as const) {
      const box = shifted(one.box, x, y);
      if (pagesUnder(box, grid) >= now || box.maxX + CLEARANCE > endX || box.maxY + CLEARANCE > endY) continue;
      if (moved.some((other) => other !== one && boxesMeet(box, other.box, 2 * CLEARANCE))) continue;
      one.placement = { ...one.placement, x: one.placement.x + x, y: one.placement.y + y };
      one.box = box;
      break;
    }
  }
  return moved.map(({ placement }) => placement);
};

const shifted = ({ minX, minY, maxX, maxY }: Box, x: number, y: number): Box => ({
  minX: minX + x,
  minY: minY + y,
  maxX: maxX + x,
  maxY: maxY + y,
});

const toNextPage = (min: number, step: number): number => (Math.floor(min / step) + 1) * step + CLEARANCE - min;

const pageEnd = (max: number, frame: number, step: number): number =>
  Math.max(0, Math.ceil((max + CLEARANCE - frame) / step)) * step + frame;
