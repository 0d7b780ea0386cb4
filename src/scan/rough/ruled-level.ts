import { PAPER } from './even-light.ts';

/** The side of the cells that ruling is looked for in, in millimetres, and how much of a cell's side it fills at least. */
const CELL = 10;
const FILLED = 0.7;

/** Ruling goes over more than this share of the cells; a drawing in pencil does not. */
const ALL_OVER = 0.6;

/** Print is darker than ruling by more than this share of the paper. */
const APART = 0.2;

/**
 * The value that parts print from the ruling of the paper it is on: thin pale lines all over the sheet. Undefined where paper is
 * plain. `mask` is 1 on all strokes.
 */
export const ruledLevel = (
  even: Uint8Array,
  mask: Uint8Array,
  width: number,
  height: number,
  pxPerMm: number,
): number | undefined => {
  const bins = new Float64Array(256);
  const ridge = (at: number): boolean => {
    const own = even[at]!;
    return (own <= even[at - 1]! && own < even[at + 1]!) || (own <= even[at - width]! && own < even[at + width]!);
  };
  for (let at = width; at < mask.length - width; at += 1) if (mask[at] !== 0 && ridge(at)) bins[even[at]!]! += 1;
  const parted = partedAt(bins);
  if (parted === undefined) return undefined;
  const cell = Math.max(8, Math.round(CELL * pxPerMm));
  const columns = Math.floor(width / cell);
  const rows = Math.floor(height / cell);
  const pale = bins.reduce((sum, n, value) => sum + (value > parted ? n : 0), 0);
  if (pale <= ALL_OVER * columns * rows * FILLED * cell) return undefined;
  let filled = 0;
  for (let number = 0; number < columns * rows; number += 1) {
    const [left, top] = [(number % columns) * cell, Math.floor(number / columns) * cell];
    let count = 0;
    for (let y = Math.max(1, top); y < Math.min(height - 1, top + cell); y += 1) {
      for (let at = y * width + left; at < y * width + left + cell; at += 1) {
        if (mask[at] !== 0 && even[at]! > parted && ridge(at)) count += 1;
      }
    }
    if (count > FILLED * cell) filled += 1;
  }
  return filled > ALL_OVER * columns * rows ? parted : undefined;
};

/** Where the counted values fall into two groups that differ most (Otsu 1979): half-way between them, if they are far apart. */
const partedAt = (bins: Float64Array): number | undefined => {
  const count = bins.reduce((sum, n) => sum + n, 0);
  const total = bins.reduce((sum, n, value) => sum + n * value, 0);
  let [below, sumBelow, most] = [0, 0, 0];
  let best: readonly [number, number] | undefined;
  for (const [value, n] of bins.entries()) {
    below += n;
    sumBelow += n * value;
    if (below === 0 || below === count) continue;
    const [dark, pale] = [sumBelow / below, (total - sumBelow) / (count - below)];
    const apart = below * (count - below) * (pale - dark) ** 2;
    if (apart > most) [most, best] = [apart, [dark, pale]];
  }
  return best && best[1] - best[0] > APART * PAPER ? (best[0] + best[1]) / 2 : undefined;
};
