import { pointOn } from './evaluate.ts';
import { nearestPoint } from './nearest-point.ts';
import type { Path } from './path.ts';

/** Places looked at on each segment: a smooth bump over one segment is seen to a thousandth of its height. */
const LOOKS = 32;

/** How far at most a path lies from another, in millimetres, looked at in 33 places on each of its segments. */
export const farthestFrom = (from: Path, path: Path): number =>
  Math.max(
    ...path.segments.flatMap((s) =>
      Array.from({ length: LOOKS + 1 }, (_, i) => nearestPoint(from, pointOn(s, i / LOOKS)).distance),
    ),
  );
