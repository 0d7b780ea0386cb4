import type { Point } from '../geometry/point.ts';
import type { Grain, Panel } from '../pattern/panel.ts';
import { boxOf } from './box-of.ts';
import { isFree, isWithin } from './text-spot.ts';

/** Side room and share of the panel's height of a grainline that is drawn for a panel without one. */
const ROOM = 7;
const WINDOWS = [
  [0.55, 0.92],
  [0.5, 0.8],
  [0.6, 0.8],
  [0.1, 0.4],
  [0.4, 0.6],
  [0.65, 0.75],
] as const;
const ACROSS = [0.5, 0.45, 0.55, 0.4, 0.6, 0.35, 0.65, 0.3, 0.7, 0.25, 0.75];

/**
 * The panel's own grainline, or where it has none, one where there is room for it: the grain is vertical in a panel's
 * own coordinates. Undefined where there is no room.
 */
export const grainLine = (
  panel: Panel,
  outline: readonly Point[],
  lines: readonly (readonly Point[])[],
): Grain | undefined => {
  if (panel.grain) return panel.grain;
  const box = boxOf(outline);
  const height = box.maxY - box.minY;
  for (const [from, to] of WINDOWS) {
    for (const share of ACROSS) {
      const x = box.minX + share * (box.maxX - box.minX);
      const [top, bottom] = [box.minY + from * height, box.minY + to * height];
      const middle = { x, y: (top + bottom) / 2 };
      const room = { middle, width: ROOM, height: bottom - top, angle: 0 };
      if (isWithin(outline, middle) && isFree(room, lines)) return { from: { x, y: top }, to: { x, y: bottom } };
    }
  }
  return undefined;
};
