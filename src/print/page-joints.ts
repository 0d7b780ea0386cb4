import type { Point } from '../geometry/point.ts';
import { onPiece, type PageLayout } from './page-layout.ts';

/** The edges of every strip that two pages share, across the whole sheet, in each piece's own coordinates. */
export const pageJoints = ({ sheets, grid }: PageLayout): ReadonlyMap<number, readonly (readonly Point[])[]> => {
  const joints = new Map<number, (readonly Point[])[]>();
  for (const { columns, rows, placements } of sheets) {
    const [width, height] = [columns * grid.stepX + grid.overlap, rows * grid.stepY + grid.overlap];
    const across = strips(columns, grid.stepX, grid.overlap).map((x) => [
      { x, y: 0 },
      { x, y: height },
    ]);
    const down = strips(rows, grid.stepY, grid.overlap).map((y) => [
      { x: 0, y },
      { x: width, y },
    ]);
    for (const placement of placements) {
      joints.set(
        placement.piece,
        [...across, ...down].map((line) => line.map((p) => onPiece(placement, p))),
      );
    }
  }
  return joints;
};

const strips = (count: number, step: number, overlap: number): number[] =>
  Array.from({ length: count - 1 }, (_, index) => [(index + 1) * step, (index + 1) * step + overlap]).flat();
