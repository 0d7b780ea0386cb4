import type { Point } from '../geometry/point.ts';
import type { Segment } from '../geometry/segment.ts';
import { MOST_DISTANCE } from './limits.ts';

const isNear = ({ x, y }: Point): boolean => Math.abs(x) <= MOST_DISTANCE && Math.abs(y) <= MOST_DISTANCE;

/** Whether all numbers of a segment are finite and small enough to work with. */
export const isWithinReach = (segment: Segment): boolean =>
  isNear(segment.start) &&
  isNear(segment.end) &&
  (segment.kind === 'line' || (isNear(segment.startHandle) && isNear(segment.endHandle)));
