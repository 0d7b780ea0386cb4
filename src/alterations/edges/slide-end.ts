import { locationAtLength, pathLength } from '../../geometry/arc-length.ts';
import { pointOn, tangentOn } from '../../geometry/evaluate.ts';
import type { Path } from '../../geometry/path.ts';
import { movePoint } from '../../geometry/point.ts';
import { line } from '../../geometry/segment.ts';
import { CRUMB } from '../../geometry/tolerance.ts';
import { endPathAt, trimEnd } from '../../geometry/trim-path.ts';
import { scaled } from '../../geometry/vector.ts';
import { withoutStub } from '../../geometry/without-stub.ts';
import { drawOn, EDGE_TURN } from '../seams/draw-on.ts';

/** The path gone on straight along its end tangent; a last straight segment is made longer, so that no node is added. */
const straightOn = (path: Path, by: number): Path => {
  const last = path.segments.at(-1)!;
  const end = movePoint(last.end, scaled(tangentOn(last, 1), by));
  if (last.kind === 'line') return { segments: [...path.segments.slice(0, -1), line(last.start, end)] };
  return by < CRUMB ? endPathAt(path, end) : { segments: [...path.segments, line(last.end, end)] };
};

/**
 * The path with its end moved along itself by `by` millimetres of its own length: negative cuts it off, positive draws it on as the
 * same curve until that has turned by 20 degrees, then straight. 0 gives the very same path. Exact to LENGTH_TOLERANCE.
 * Undefined where that would leave nothing.
 */
export const slideEnd = (path: Path, by: number): Path | undefined => {
  if (by === 0) return path;
  const wanted = pathLength(path) + by;
  if (wanted < CRUMB) return undefined;
  const whole = by < 0 ? path : withoutStub(path);
  const long = by < 0 ? path : drawOn(whole, wanted - pathLength(whole), EDGE_TURN);
  const left = wanted - pathLength(long);
  if (left >= 0) return straightOn(long, left);
  const at = locationAtLength(long, wanted);
  return trimEnd(long, at, pointOn(long.segments[at.segment]!, at.t));
};
