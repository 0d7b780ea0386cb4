import type { Point } from '../geometry/point.ts';
import { onPiece, type PageLayout } from './page-layout.ts';

/** Radius of the circles that close when pages lie right, in millimetres. */
export const MARK_RADIUS = 3;

/** Where along each joined side of a page the circles stand. */
export const MARK_SHARES = [0.25, 0.75];

/** What two pages share right across their sheet, as polygons in a piece's own coordinates. */
export interface Joints {
  /** From the trimmed edge of the second page to the end of the first. */
  readonly strips: readonly (readonly Point[])[];
  /** Squares round the circles. */
  readonly marks: readonly (readonly Point[])[];
}

/** The joints of each piece's sheet. */
export const pageJoints = ({ sheets, grid }: PageLayout): ReadonlyMap<number, Joints> => {
  const joints = new Map<number, Joints>();
  const { stepX, stepY, overlap } = grid;
  for (const { columns, rows, placements, tiles } of sheets) {
    const [width, height] = [columns * stepX + overlap, rows * stepY + overlap];
    const strips = [
      ...starts(columns, stepX).map((x) => box(x, 0, x + overlap, height)),
      ...starts(rows, stepY).map((y) => box(0, y, width, y + overlap)),
    ];
    const marks = tiles.flatMap((tile) =>
      MARK_SHARES.flatMap((share) => [
        ...(tile.column > 0 ? [around(tile.x, tile.y + share * tile.height)] : []),
        ...(tile.row > 0 ? [around(tile.x + share * tile.width, tile.y)] : []),
      ]),
    );
    for (const placement of placements) {
      const own = (polygon: readonly Point[]): Point[] => polygon.map((p) => onPiece(placement, p));
      joints.set(placement.piece, { strips: strips.map(own), marks: marks.map(own) });
    }
  }
  return joints;
};

const around = (x: number, y: number): Point[] =>
  box(x - MARK_RADIUS, y - MARK_RADIUS, x + MARK_RADIUS, y + MARK_RADIUS);

const starts = (count: number, step: number): number[] =>
  Array.from({ length: count - 1 }, (_, index) => (index + 1) * step);

const box = (minX: number, minY: number, maxX: number, maxY: number): Point[] => [
  { x: minX, y: minY },
  { x: maxX, y: minY },
  { x: maxX, y: maxY },
  { x: minX, y: maxY },
];
