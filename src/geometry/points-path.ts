import type { Path } from './path.ts';
import type { Point } from './point.ts';
import { line } from './segment.ts';

/** Straight lines from point to point, at least two; `closed` leads back to the first. */
export const pointsPath = (points: readonly Point[], closed = false): Path => ({
  segments: points.flatMap((from, at) => {
    const to = points[at + 1] ?? (closed ? points[0] : undefined);
    return to === undefined ? [] : [line(from, to)];
  }),
});
