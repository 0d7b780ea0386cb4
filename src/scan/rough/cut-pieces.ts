import type { Point } from '../../geometry/point.ts';
import { closeStrokes } from './close-strokes.ts';
import { closedStrands } from './closed-strands.ts';
import { growMask } from './grow-mask.ts';
import { emptyGrid, fillGrid, levelRow, smoothGrid } from './level-grid.ts';
import type { Reduced } from './reduce-picture.ts';
import { roundLoop } from './round-loop.ts';
import { takeFromBorder } from './solid-parts.ts';
import { traceArcs } from './trace-arcs.ts';
import { twoLevels, type TwoLevels } from './two-levels.ts';

/** The side of the cells in which the two levels are read, in millimetres. */
const CELL = 8;

/** A cell must hold this share of a level to say what it is there. */
const FEWEST = 0.1;

/** Nearer to a piece's edge than this, in millimetres, its blur is not told from ink. */
const EDGE = 0.6;

/** Pieces that the border cuts off count from this size on, in millimetres. */
const COUNTED = 20;

/** The cut-out pieces of a picture. */
export interface CutPieces {
  readonly edge: 'lighter' | 'darker';
  /** 1 on the pieces, away from their edges. */
  readonly mask: Uint8Array;
  readonly pieces: Point[][];
  readonly cut: number;
}

/** Pieces of paper on a ground that is darker or lighter than they are; the ground is what most of the picture's border shows. */
export const cutPieces = (reduced: Reduced, pxPerMm: number): CutPieces => {
  const { width, height, step } = reduced;
  const mask = lighterThanLocal(reduced, pxPerMm);
  const isLightGround = shareOnBorder(mask, width, height) > 0.5;
  if (isLightGround) flip(mask);
  const ground = closeStrokes(mask, width, height, pxPerMm);
  flip(ground);
  const pieces = takeFromBorder(ground, width, height);
  flip(pieces);
  const cutOff = takeFromBorder(pieces, width, height);
  const arcs = traceArcs(new Int32Array(pieces), width, height);
  const loops = closedStrands(arcs, 0, pxPerMm).map((loop) => roundLoop(loop, step));
  growMask(pieces, width, height, 0, EDGE * pxPerMm);
  return {
    edge: isLightGround ? 'darker' : 'lighter',
    mask: pieces,
    pieces: loops,
    cut: countParts(cutOff, width, height, COUNTED * pxPerMm),
  };
};

const flip = (mask: Uint8Array): void => {
  for (let at = 0; at < mask.length; at += 1) mask[at] = 1 - mask[at]!;
};

/** 1 where the picture is lighter than half-way between the two levels near there. */
const lighterThanLocal = (reduced: Reduced, pxPerMm: number): Uint8Array => {
  const { width, height, light } = reduced;
  const levels = twoLevels(light);
  const [dark, bright] = localLevels(reduced, levels, Math.max(4, Math.round(CELL * pxPerMm)));
  const mask = new Uint8Array(light.length);
  const [low, high] = [new Float32Array(width), new Float32Array(width)];
  for (let y = 0; y < height; y += 1) {
    levelRow(dark, y, low);
    levelRow(bright, y, high);
    for (let x = 0, at = y * width; x < width; x += 1, at += 1) mask[at] = 2 * light[at]! > low[x]! + high[x]! ? 1 : 0;
  }
  return mask;
};

/** The mean of the dark and of the light in each cell. */
const localLevels = ({ width, height, light }: Reduced, levels: TwoLevels, cell: number) => {
  const grids = [emptyGrid(width, height, cell), emptyGrid(width, height, cell)] as const;
  const { columns, values } = grids[0];
  for (let number = 0; number < values.length; number += 1) {
    const [i, j] = [(number % columns) * cell, Math.floor(number / columns) * cell];
    const [sums, counts] = [
      [0, 0],
      [0, 0],
    ];
    for (let y = j; y < Math.min(height, j + cell); y += 1) {
      for (let at = y * width + i; at < y * width + Math.min(width, i + cell); at += 1) {
        const side = light[at]! > levels.between ? 1 : 0;
        sums[side]! += light[at]!;
        counts[side]! += 1;
      }
    }
    grids.forEach((grid, side) => {
      if (counts[side]! > FEWEST * cell * cell) grid.values[number] = sums[side]! / counts[side]!;
    });
  }
  grids.forEach((grid, side) => {
    fillGrid(grid, side === 0 ? levels.dark : levels.light);
    smoothGrid(grid);
  });
  return grids;
};

const shareOnBorder = (mask: Uint8Array, width: number, height: number): number => {
  let count = 0;
  for (let x = 0; x < width; x += 1) count += mask[x]! + mask[mask.length - 1 - x]!;
  for (let y = 0; y < height; y += 1) count += mask[y * width]! + mask[y * width + width - 1]!;
  return count / (2 * (width + height));
};

/** How many parts of the mask, joined side to side, are at least `smallest` wide or high; the mask is used up. */
const countParts = (mask: Uint8Array, width: number, height: number, smallest: number): number => {
  let parts = 0;
  for (let first = 0; first < mask.length; first += 1) {
    if (mask[first] === 0) continue;
    let [left, right, top, bottom] = [width, 0, height, 0];
    const stack = [first];
    mask[first] = 0;
    for (let at = stack.pop(); at !== undefined; at = stack.pop()) {
      const x = at % width;
      const y = (at - x) / width;
      left = Math.min(left, x);
      right = Math.max(right, x);
      top = Math.min(top, y);
      bottom = Math.max(bottom, y);
      for (const to of [x > 0 ? at - 1 : at, x < width - 1 ? at + 1 : at, at - width, at + width]) {
        if (mask[to] !== 1) continue;
        mask[to] = 0;
        stack.push(to);
      }
    }
    if (Math.max(right - left, bottom - top) >= smallest) parts += 1;
  }
  return parts;
};
