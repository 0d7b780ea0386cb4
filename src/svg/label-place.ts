import type { Box } from '../geometry/box.ts';
import { crossHorizontal } from '../geometry/intersect.ts';
import type { Panel } from '../pattern/panel.ts';
import { outlineOf } from '../pattern/outline.ts';

/** Width of a letter as a share of its size, for setting text without reading a font. */
const LETTER_WIDTH = 0.62;
const LARGEST = 8;
const SMALLEST = 2.5;

export interface LabelPlace {
  readonly x: number;
  readonly y: number;
  readonly size: number;
}

/** Where a panel's name stands: centred across it, in the tallest room between its levels, as large as fits. */
export const labelPlace = (panel: Panel, box: Box): LabelPlace => {
  const stops = [box.minY, ...panel.levels.map((level) => level.y), box.maxY].toSorted((a, b) => a - b);
  let [top, bottom] = [box.minY, box.maxY];
  let tallest = 0;
  for (let i = 1; i < stops.length; i += 1) {
    const height = stops[i]! - stops[i - 1]!;
    if (height > tallest) [top, bottom, tallest] = [stops[i - 1]!, stops[i]!, height];
  }
  const middle = (top + bottom) / 2;
  const across = crossHorizontal(outlineOf(panel), middle).map(({ point }) => point.x);
  const [left, right] = across.length < 2 ? [box.minX, box.maxX] : [Math.min(...across), Math.max(...across)];
  const fits = Math.min(LARGEST, ((right - left) * 0.8) / (LETTER_WIDTH * [...panel.name].length), (bottom - top) / 3);
  const size = Math.round(Math.max(SMALLEST, fits) * 2) / 2;
  return { x: Math.round((left + right) / 2), y: Math.round(middle + size / 3), size };
};
