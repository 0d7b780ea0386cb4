import { segmentLength } from './arc-length.ts';
import type { Location, Path } from './path.ts';
import { distance, movePoint, samePoint, type Point } from './point.ts';
import { reversePath } from './reverse-path.ts';
import { cubic, line, type Segment } from './segment.ts';
import { subPath } from './sub-path.ts';
import { CRUMB } from './tolerance.ts';
import { vectorTo } from './vector.ts';

/** The segment with its end moved; a cubic's handle goes along, so that it keeps its direction there. */
const endingAt = (s: Segment, end: Point): Segment => {
  if (samePoint(s.end, end)) return s;
  if (s.kind === 'line') return line(s.start, end);
  return cubic(s.start, s.startHandle, movePoint(s.endHandle, vectorTo(s.end, end)), end);
};

/** The path with its last point moved a hair, exactly to `end`; a last segment that is only a crumb is taken up by the one before. */
export const endPathAt = (path: Path, end: Point): Path => {
  let kept = path.segments;
  while (kept.length > 1 && segmentLength(kept.at(-1)!) < CRUMB && distance(kept.at(-2)!.end, end) < CRUMB) {
    kept = kept.slice(0, -1);
  }
  const last = kept.at(-1)!;
  return { segments: [...kept.slice(0, -1), endingAt(last, end)] };
};

/** The part up to a place, ending exactly at `end`, which must be that place's point but for rounding. */
export const trimEnd = (path: Path, to: Location, end: Point): Path =>
  endPathAt(subPath(path, { segment: 0, t: 0 }, to), end);

/** The part from a place on, starting exactly at `start`, which must be that place's point but for rounding. */
export const trimStart = (path: Path, from: Location, start: Point): Path =>
  reversePath(endPathAt(reversePath(subPath(path, from, { segment: path.segments.length - 1, t: 1 })), start));
