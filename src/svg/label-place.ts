import type { Box } from '../geometry/box.ts';
import { crossHorizontal } from '../geometry/intersect.ts';
import type { Panel } from '../pattern/panel.ts';
import { outlineOf } from '../pattern/outline.ts';

/** Width of a letter as a share of its size, for setting text without reading a font. */
const LETTER_WIDTH = 0.62;
const LARGEST = 8;
const SMALLEST = 2.5;
/** Beside a grainline a name is set only if it stays this large; else across it. */
const LEGIBLE = 4;
/** Room for notches between a name and the edge. */
const CLEAR = 7;

export interface LabelPlace {
  readonly x: number;
  readonly y: number;
  readonly size: number;
}

/** Where a panel's name stands: centred across it, in the tallest room between its levels, as large as fits; beside a grainline where there is room. */
export const labelPlace = (panel: Panel, box: Box): LabelPlace => {
  const stops = [box.minY, ...panel.levels.map((level) => level.y), box.maxY].toSorted((a, b) => a - b);
  let [top, bottom] = [box.minY, box.maxY];
  let tallest = 0;
  for (let i = 1; i < stops.length; i += 1) {
    const height = stops[i]! - stops[i - 1]!;
    if (height > tallest) [top, bottom, tallest] = [stops[i - 1]!, stops[i]!, height];
  }
  const middle = (top + bottom) / 2;
  const crossings = crossHorizontal(outlineOf(panel), middle).map(({ point }) => point.x);
  const [left, right] = crossings.length < 2 ? [box.minX, box.maxX] : [Math.min(...crossings), Math.max(...crossings)];
  const room = bottom - top;
  const across = sizeIn(panel.name, left, right, room);
  const grain = panel.grain ? (panel.grain.from.x + panel.grain.to.x) / 2 : left;
  const [from, to] = grain - left > right - grain ? [left + CLEAR, grain - 1] : [grain + 1, right - CLEAR];
  const beside = sizeIn(panel.name, from, to, room);
  const [x, size] = beside >= LEGIBLE ? [(from + to) / 2, beside] : [(left + right) / 2, across];
  return { x: Math.round(x), y: Math.round(middle + size / 3), size };
};

/** The largest size at which a name fits between left and right and into a height. */
const sizeIn = (name: string, left: number, right: number, height: number): number => {
  const fits = Math.min(LARGEST, ((right - left) * 0.8) / (LETTER_WIDTH * [...name].length), height / 3);
  return Math.round(Math.max(SMALLEST, fits) * 2) / 2;
};
