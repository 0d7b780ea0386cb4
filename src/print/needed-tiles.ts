import { boxesMeet, joinBoxes } from '../geometry/box.ts';
import type { Point } from '../geometry/point.ts';
import { CLEARANCE, type Tile, type TileGrid } from './page-layout.ts';
import { boxOf } from './box-of.ts';
import { touchesBox } from './touches-box.ts';

/**
 * The tiles that must be printed to show every polygon whole, row by row.
 * A polygon in the strip that two pages share needs only one of them: the one that is printed anyway, else the first.
 */
export const neededTiles = (polygons: readonly (readonly Point[])[], grid: TileGrid): Tile[] => {
  const inked = polygons.map((polygon) => ({ polygon, box: boxOf(polygon) }));
  const needed = new Set<string>();
  const limit = joinBoxes(inked.map(({ box }) => box));
  const columns = cuts(limit.maxX, grid.frameWidth, grid.stepX);
  const rows = cuts(limit.maxY, grid.frameHeight, grid.stepY);
  const cells = rows.flatMap((row) => columns.map((column) => ({ row, column })));
  const shared = ({ row, column }: (typeof cells)[number]): number => row.owners.length * column.owners.length;
  for (const { row, column } of cells.toSorted((a, b) => shared(a) - shared(b))) {
    const owners = row.owners.flatMap((r) => column.owners.map((c) => `${r},${c}`));
    if (owners.some((owner) => needed.has(owner))) continue;
    const cell = {
      minX: column.from - CLEARANCE / 2,
      maxX: column.to + CLEARANCE / 2,
      minY: row.from - CLEARANCE / 2,
      maxY: row.to + CLEARANCE / 2,
    };
    if (inked.some(({ polygon, box }) => boxesMeet(box, cell) && touchesBox(polygon, cell))) needed.add(owners[0]!);
  }
  return [...needed].map((owner) => tileAt(owner, grid)).toSorted((a, b) => a.row - b.row || a.column - b.column);
};

interface Cut {
  readonly from: number;
  readonly to: number;
  /** The one tile that shows this stretch, or the two that share it. */
  readonly owners: readonly number[];
}

const cuts = (limit: number, frame: number, step: number): Cut[] => {
  const overlap = frame - step;
  const found: Cut[] = [];
  for (let index = 0; index === 0 || index * step < limit; index++) {
    found.push({ from: index * step + (index > 0 ? overlap : 0), to: (index + 1) * step, owners: [index] });
    if (overlap > 0)
      found.push({ from: (index + 1) * step, to: (index + 1) * step + overlap, owners: [index, index + 1] });
  }
  return found;
};

const tileAt = (owner: string, grid: TileGrid): Tile => {
  const [row = 0, column = 0] = owner.split(',').map(Number);
  return {
    column,
    row,
    x: column * grid.stepX,
    y: row * grid.stepY,
    width: grid.frameWidth,
    height: grid.frameHeight,
  };
};
