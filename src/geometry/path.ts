import { samePoint, type Point } from './point.ts';
import type { Segment } from './segment.ts';

/**
 * Segments end to end, at least one: each starts exactly where the one before it ends.
 * It is closed when the last ends exactly where the first starts.
 */
export interface Path {
  readonly segments: readonly Segment[];
}

/** A place on a path: `t` in [0, 1] along segment number `segment`. */
export interface Location {
  readonly segment: number;
  readonly t: number;
}

export const pathStart = (path: Path): Point => path.segments[0]!.start;

export const pathEnd = (path: Path): Point => path.segments[path.segments.length - 1]!.end;

export const isClosed = (path: Path): boolean => samePoint(pathStart(path), pathEnd(path));
