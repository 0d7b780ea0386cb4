import { crossHorizontal } from '../geometry/intersect.ts';
import { outlineOf } from '../pattern/outline.ts';
import type { Level, Panel } from '../pattern/panel.ts';
import { textWidth } from './text-width.ts';

/** Where the name of a level stands: the beginning of its base line. */
export interface LevelNamePlace {
  readonly x: number;
  readonly y: number;
  readonly size: number;
}

/** The usual size, and smaller ones for gussets, in millimetres. */
const SIZES = [3, 2.5, 2] as const;

/** From the edge to the name on an ordinary panel; the least to the edge and to the grainline on a gusset; from base line to level. */
const [FROM_EDGE, LEAST, ABOVE_LEVEL] = [3, 1, 1.5] as const;

/** What is free between the outline and the grainline over the height of a name, from left to right; on both sides of the grainline. */
const gapsOf = (panel: Panel, { y }: Level, size: number): (readonly [number, number])[] => {
  const outline = outlineOf(panel);
  const heights = [y - ABOVE_LEVEL - size, y - ABOVE_LEVEL];
  const across = heights.map((height) => crossHorizontal(outline, height).map(({ point }) => point.x));
  const left = Math.max(...across.map((xs) => Math.min(...xs))) + LEAST;
  const right = Math.min(...across.map((xs) => Math.max(...xs))) - LEAST;
  const { grain } = panel;
  const stands = grain && heights.some((height) => height > grain.from.y && height < grain.to.y);
  if (!stands) return [[left, right]];
  return [
    [left, grain.from.x - LEAST],
    [grain.from.x + LEAST, right],
  ];
};

/** On a gusset, which tapers, the name is set smaller where it must be; undefined where it finds no room between outline and grainline. */
export const levelNamePlace = (panel: Panel, level: Level): LevelNamePlace | undefined => {
  const y = level.y - ABOVE_LEVEL;
  if (panel.gusset === undefined) return { x: Math.round(level.fromX) + FROM_EDGE, y, size: SIZES[0] };
  for (const size of SIZES) {
    const width = textWidth(level.name, size);
    const gap = gapsOf(panel, level, size).find(([left, right]) => right - left >= width);
    if (gap) return { x: gap[0], y, size };
  }
  return undefined;
};
