import { emptyGrid, fillGrid, levelRow, smoothGrid, type LevelGrid } from './level-grid.ts';
import type { Reduced } from './reduce-picture.ts';

/** What bare paper is in an evened picture; room above it is left for noise. */
export const PAPER = 200;

/** The side of the cells in which the paper's level is read: large against a printed line, small against how light falls off. */
const CELL = 8;

/** Paper is this quantile of a cell's light: above all lines and letters, below the brightest noise. */
const PAPER_SHARE = 0.7;

/** A cell darker than this share of what most cells are is no paper: a solid print, or the scanner's lid. */
const NO_PAPER = 0.5;

/** A cell with fewer readings than this share of its pixels says nothing. */
const FEWEST = 0.15;

const BINS = 512;

/** The light that a share of the counted readings is below. */
const quantile = (bins: Uint32Array, count: number, share: number): number => {
  let [at, below] = [0, 0];
  while (at < BINS - 1 && below + bins[at]! < share * count) {
    below += bins[at]!;
    at += 1;
  }
  return (at + 0.5) / BINS;
};

/** The paper's level in each cell, from the pixels that lie `on` paper (all, if not given). */
const paperLevel = (reduced: Reduced, pxPerMm: number, on?: Uint8Array): LevelGrid => {
  const { width, height, light } = reduced;
  const grid = emptyGrid(width, height, Math.max(4, Math.round(CELL * pxPerMm)));
  const bins = new Uint32Array(BINS);
  for (let cell = 0; cell < grid.values.length; cell += 1) {
    const [i, j] = [(cell % grid.columns) * grid.cell, Math.floor(cell / grid.columns) * grid.cell];
    let count = 0;
    bins.fill(0);
    for (let y = j; y < Math.min(height, j + grid.cell); y += 1) {
      for (let at = y * width + i; at < y * width + Math.min(width, i + grid.cell); at += 1) {
        if (on !== undefined && on[at] === 0) continue;
        bins[Math.min(BINS - 1, (light[at]! * BINS) | 0)]! += 1;
        count += 1;
      }
    }
    if (count > FEWEST * grid.cell * grid.cell) grid.values[cell] = quantile(bins, count, PAPER_SHARE);
  }
  const known = grid.values.filter((value) => !Number.isNaN(value)).toSorted();
  const usual = known[Math.floor(known.length * PAPER_SHARE)] ?? 1;
  for (let cell = 0; cell < grid.values.length; cell += 1) {
    if (grid.values[cell]! < NO_PAPER * usual) grid.values[cell] = Number.NaN;
  }
  fillGrid(grid, usual);
  smoothGrid(grid);
  return grid;
};

/**
 * The picture with its light evened out: bare paper is 200 everywhere, no light is 0. With `on`, paper is what lies there, and all else
 * is given as bare paper.
 */
export const evenLight = (reduced: Reduced, pxPerMm: number, on?: Uint8Array): Uint8Array => {
  const { width, height, light } = reduced;
  const grid = paperLevel(reduced, pxPerMm, on);
  const even = new Uint8Array(width * height);
  const level = new Float32Array(width);
  for (let y = 0; y < height; y += 1) {
    levelRow(grid, y, level);
    for (let x = 0, at = y * width; x < width; x += 1, at += 1) {
      const value = (PAPER * light[at]!) / level[x]! + 0.5;
      even[at] = value > 255 ? 255 : value;
    }
    if (on === undefined) continue;
    for (let at = y * width; at < (y + 1) * width; at += 1) if (on[at] === 0) even[at] = PAPER;
  }
  return even;
};
