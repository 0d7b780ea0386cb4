import type { Point } from '../geometry/point.ts';
import { pointsBox } from '../geometry/box.ts';
import { CLEARANCE, type Tile, type TileGrid } from './page-layout.ts';
import { touchesBox } from './touches-box.ts';

/**
 * The tiles that must be printed to show every polygon whole, row by row.
 * A polygon in the strip that two pages share needs only one of them: the one that is printed anyway, else the first.
 */
export const neededTiles = (polygons: readonly (readonly Point[])[], grid: TileGrid): Tile[] => {
  const spread = polygons.map((polygon) => {
    const box = pointsBox(polygon);
    return {
      polygon,
      columns: stretches(box.minX, box.maxX, grid.frameWidth, grid.stepX),
      rows: stretches(box.minY, box.maxY, grid.frameHeight, grid.stepY),
    };
  });
  const needed = new Map<string, Tile>();
  const isNeeded = (column: Stretch, row: Stretch): boolean =>
    row.owners.some((r) => column.owners.some((c) => needed.has(`${r},${c}`)));
  // What one page alone shows comes first, then what two share, then the corners that four share.
  for (const sharers of [1, 2, 4]) {
    for (const { polygon, columns, rows } of spread) {
      for (const row of rows) {
        for (const column of columns) {
          if (row.owners.length * column.owners.length !== sharers || isNeeded(column, row)) continue;
          const box = { minX: column.from, maxX: column.to, minY: row.from, maxY: row.to };
          if (!touchesBox(polygon, box)) continue;
          const tile = tileAt(column.owners[0]!, row.owners[0]!, grid);
          needed.set(`${tile.row},${tile.column}`, tile);
        }
      }
    }
  }
  return [...needed.values()].toSorted((a, b) => a.row - b.row || a.column - b.column);
};

/** Part of a row or a column of pages, widened by what a line may stick out. */
interface Stretch {
  readonly from: number;
  readonly to: number;
  /** The one page that shows it, or the two that share it. */
  readonly owners: readonly number[];
}

const stretches = (min: number, max: number, frame: number, step: number): Stretch[] => {
  const overlap = frame - step;
  const rim = CLEARANCE / 2;
  const found: Stretch[] = [];
  const add = (from: number, to: number, owners: readonly number[]): void => {
    if (from - rim <= max && to + rim >= min) found.push({ from: from - rim, to: to + rim, owners });
  };
  for (let at = Math.max(0, Math.floor((min - frame) / step)); at * step - rim <= max; at++) {
    add(at * step + (at > 0 ? overlap : 0), (at + 1) * step, [at]);
    if (overlap > 0) add((at + 1) * step, (at + 1) * step + overlap, [at, at + 1]);
  }
  return found;
};

const tileAt = (column: number, row: number, grid: TileGrid): Tile => ({
  column,
  row,
  x: column * grid.stepX,
  y: row * grid.stepY,
  width: grid.frameWidth,
  height: grid.frameHeight,
});
