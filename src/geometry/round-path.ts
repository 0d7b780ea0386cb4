import type { Path } from './path.ts';
import { samePoint, type Point } from './point.ts';
import { cubic, line, type Segment } from './segment.ts';
import { DECIMALS } from './tolerance.ts';

/** A number of millimetres as it is written: to DECIMALS places, never -0. */
export const roundNumber = (value: number): number => {
  const scale = 10 ** DECIMALS;
  return Math.round(value * scale) / scale + 0;
};

export const roundPoint = (p: Point): Point => ({ x: roundNumber(p.x), y: roundNumber(p.y) });

/**
 * The path with every point rounded as it is written, so that what is held equals what is read back. Shared points stay shared;
 * segments that shrink to one point are dropped, but for the last that is left.
 */
export const roundPath = (path: Path): Path => {
  const rounded = path.segments.map(roundSegment);
  const kept = rounded.filter((segment) => !isOnePoint(segment));
  return { segments: kept.length > 0 ? kept : rounded.slice(0, 1) };
};

const roundSegment = (s: Segment): Segment =>
  s.kind === 'line'
    ? line(roundPoint(s.start), roundPoint(s.end))
    : cubic(roundPoint(s.start), roundPoint(s.startHandle), roundPoint(s.endHandle), roundPoint(s.end));

const isOnePoint = (s: Segment): boolean =>
  samePoint(s.start, s.end) &&
  (s.kind === 'line' || (samePoint(s.start, s.startHandle) && samePoint(s.end, s.endHandle)));
