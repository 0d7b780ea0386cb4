import { pointOn } from './evaluate.ts';
import type { Path } from './path.ts';
import type { Point } from './point.ts';
import type { Segment } from './segment.ts';

const MOST_STEPS = 10_000;

/** Equal steps whose chords stay within `tolerance` of a cubic: the second derivative bounds it (Wang, 1984). */
const stepsFor = (s: Segment, tolerance: number): number => {
  if (s.kind === 'line') return 1;
  const { start: a, startHandle: b, endHandle: c, end: d } = s;
  const bend = Math.max(
    Math.hypot(a.x - 2 * b.x + c.x, a.y - 2 * b.y + c.y),
    Math.hypot(b.x - 2 * c.x + d.x, b.y - 2 * c.y + d.y),
  );
  return Math.min(MOST_STEPS, Math.max(1, Math.ceil(Math.sqrt((6 * bend) / (8 * tolerance)))));
};

/** Points along the path whose joining chords stay within `tolerance` of it; all its own nodes are among them, once each. */
export const flattenPath = (path: Path, tolerance: number): Point[] => {
  const points: Point[] = [path.segments[0]!.start];
  for (const s of path.segments) {
    const steps = stepsFor(s, tolerance);
    for (let i = 1; i <= steps; i += 1) points.push(pointOn(s, i / steps));
  }
  return points;
};
