import { pathStart, type Path } from './path.ts';
import { distance, samePoint, type Point } from './point.ts';
import type { Segment } from './segment.ts';
import { SAME_POINT } from './tolerance.ts';

const startingAt = (segment: Segment, start: Point): Segment =>
  samePoint(segment.start, start) ? segment : { ...segment, start };

/**
 * One path out of paths that follow each other. Each must start where the one before it ends, to within SAME_POINT (its start is
 * then moved there, so that the whole is exactly continuous); anything farther throws, as it would leave a hole.
 */
export const joinPaths = (...paths: readonly Path[]): Path => {
  const segments: Segment[] = [];
  for (const path of paths) {
    const previous = segments.at(-1);
    if (previous === undefined) {
      segments.push(...path.segments);
      continue;
    }
    const gap = distance(previous.end, pathStart(path));
    if (gap > SAME_POINT) throw new Error(`paths do not meet: ${gap} mm apart`);
    segments.push(startingAt(path.segments[0]!, previous.end), ...path.segments.slice(1));
  }
  return { segments };
};
