import { isInside } from '../geometry/area.ts';
import type { Point } from '../geometry/point.ts';
import type { DrawnPanel } from './sort-outlines.ts';

/** Whether a place of the drawing lies inside a panel, be it only inside its outer line. */
export const holds = ({ shape, other }: DrawnPanel, at: Point): boolean =>
  isInside(shape.path, at) || (other !== undefined && isInside(other.path, at));
