import type { Box } from '../geometry/box.ts';
import type { Point } from '../geometry/point.ts';

/** The smallest upright box round some points; of none, an empty box. */
export const boxOf = (points: readonly Point[]): Box => {
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const { x, y } of points) {
    if (x < minX) minX = x;
    if (x > maxX) maxX = x;
    if (y < minY) minY = y;
    if (y > maxY) maxY = y;
  }
  return { minX, minY, maxX, maxY };
};
