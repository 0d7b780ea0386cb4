import { segmentLength } from './arc-length.ts';
import { tangentOn } from './evaluate.ts';
import type { Path } from './path.ts';
import type { Segment } from './segment.ts';
import { CORNER_TURN, SAME_POINT, STUB } from './tolerance.ts';
import { turn, unit, vectorTo } from './vector.ts';

/** Whether a short last segment goes on, as far as rounded coordinates can tell, in the direction of the one before it. */
const isStub = (last: Segment, before: Segment): boolean => {
  const length = segmentLength(last);
  if (length >= STUB) return false;
  const bend = Math.abs(turn(tangentOn(before, 1), unit(vectorTo(last.start, last.end))));
  return length === 0 || bend <= CORNER_TURN + (4 * SAME_POINT) / length;
};

/** The path without last segments too short to have a direction of their own; the path itself where its last has one. */
export const withoutStub = (path: Path): Path => {
  let kept = path.segments;
  while (kept.length > 1 && isStub(kept.at(-1)!, kept.at(-2)!)) kept = kept.slice(0, -1);
  return kept === path.segments ? path : { segments: kept };
};
