import { pointsBox } from '../../geometry/box.ts';
import type { Point } from '../../geometry/point.ts';

/** The longer side of the upright box round the points. */
export const longerSide = (points: readonly Point[]): number => {
  const { minX, minY, maxX, maxY } = pointsBox(points);
  return Math.max(maxX - minX, maxY - minY);
};
