import { medianOf } from '../quantile-of.ts';

/** A level that varies slowly over a picture: one value for each cell, blended between the middles of the cells. */
export interface LevelGrid {
  readonly cell: number;
  readonly columns: number;
  readonly rows: number;
  readonly values: Float32Array;
}

/** A grid of cells of `cell` pixels for a field of this size; every value not a number. */
export const emptyGrid = (width: number, height: number, cell: number): LevelGrid => {
  const [columns, rows] = [Math.ceil(width / cell), Math.ceil(height / cell)];
  return { cell, columns, rows, values: new Float32Array(columns * rows).fill(Number.NaN) };
};

/** The known values of the cell at (i, j) and of the eight round it. */
const around = (grid: LevelGrid, from: Float32Array, i: number, j: number): number[] => {
  const known: number[] = [];
  for (let y = Math.max(0, j - 1); y <= Math.min(grid.rows - 1, j + 1); y += 1) {
    for (let x = Math.max(0, i - 1); x <= Math.min(grid.columns - 1, i + 1); x += 1) {
      const value = from[y * grid.columns + x]!;
      if (!Number.isNaN(value)) known.push(value);
    }
  }
  return known;
};

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

/** Gives each unknown cell the mean of its known neighbours, ring by ring; where nothing is known at all, `otherwise`. */
export const fillGrid = (grid: LevelGrid, otherwise: number): void => {
  const { values, columns } = grid;
  for (let left = values.reduce((n, value) => n + (Number.isNaN(value) ? 1 : 0), 0); left > 0;) {
    const before = values.slice();
    let filled = 0;
    for (let at = 0; at < values.length; at += 1) {
      if (!Number.isNaN(before[at]!)) continue;
      const known = around(grid, before, at % columns, Math.floor(at / columns));
      if (known.length === 0) continue;
      values[at] = mean(known);
      filled += 1;
    }
    if (filled === 0) values.fill(otherwise);
    left = filled === 0 ? 0 : left - filled;
  }
};

/** Each cell becomes the median of itself and its neighbours, then their mean: single odd cells vanish, slopes stay. */
export const smoothGrid = (grid: LevelGrid): void => {
  for (const blend of [medianOf, mean]) {
    const before = grid.values.slice();
    for (let at = 0; at < before.length; at += 1) {
      grid.values[at] = blend(around(grid, before, at % grid.columns, Math.floor(at / grid.columns)));
    }
  }
};

/** The level along row `y`, one value a pixel, into `row`. */
export const levelRow = (grid: LevelGrid, y: number, row: Float32Array): void => {
  const { cell, columns, rows, values } = grid;
  const v = Math.max(0, Math.min(rows - 1, (y + 0.5) / cell - 0.5));
  const j = Math.floor(v);
  const [upper, lower, down] = [j * columns, Math.min(rows - 1, j + 1) * columns, v - j];
  const half = cell / 2;
  let before = values[upper]! + (values[lower]! - values[upper]!) * down;
  for (let i = 0, x = 0; i <= columns; i += 1) {
    const k = Math.min(columns - 1, i);
    const next = values[upper + k]! + (values[lower + k]! - values[upper + k]!) * down;
    const slope = (next - before) / cell;
    const start = i * cell - half;
    for (const end = Math.min(row.length, start + cell); x < end; x += 1) row[x] = before + (x + 0.5 - start) * slope;
    before = next;
  }
};
