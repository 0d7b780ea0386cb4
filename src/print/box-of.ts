import { joinBoxes, type Box } from '../geometry/box.ts';
import type { Point } from '../geometry/point.ts';

/** The smallest upright box round some points; of none, an empty box. */
export const boxOf = (points: readonly Point[]): Box =>
  joinBoxes(points.map(({ x, y }) => ({ minX: x, minY: y, maxX: x, maxY: y })));
