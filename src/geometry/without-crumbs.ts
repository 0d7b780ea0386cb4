import { pathEnd, type Path } from './path.ts';
import { distance, movePoint, type Point } from './point.ts';
import type { Segment } from './segment.ts';
import { vectorTo } from './vector.ts';

/**
 * The same path without segments that nowhere reach as far as `size` mm from their start: their neighbours take their place, whose
 * ends move by less than `size` with their handles. Both ends of the path stay. A path of nothing but crumbs stays as it is.
 */
export const withoutCrumbs = (path: Path, size: number): Path => {
  const kept: Segment[] = [];
  let from: Point | undefined;
  for (const segment of path.segments) {
    const start: Point = from ?? segment.start;
    const isCrumb = reach(start, segment) < size;
    if (!isCrumb) kept.push(startingAt(segment, start));
    from = isCrumb ? start : undefined;
  }
  const last = kept.pop();
  if (last === undefined) return path;
  return { segments: [...kept, endingAt(last, pathEnd(path))] };
};

const reach = (start: Point, segment: Segment): number =>
  segment.kind === 'line'
    ? distance(start, segment.end)
    : Math.max(distance(start, segment.startHandle), distance(start, segment.endHandle), distance(start, segment.end));

const startingAt = (segment: Segment, start: Point): Segment =>
  segment.kind === 'line'
    ? { ...segment, start }
    : { ...segment, start, startHandle: movePoint(segment.startHandle, vectorTo(segment.start, start)) };

const endingAt = (segment: Segment, end: Point): Segment =>
  segment.kind === 'line'
    ? { ...segment, end }
    : { ...segment, end, endHandle: movePoint(segment.endHandle, vectorTo(segment.end, end)) };
