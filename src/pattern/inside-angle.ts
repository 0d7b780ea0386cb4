import { tangentOn } from '../geometry/evaluate.ts';
import type { Path } from '../geometry/path.ts';
import { turn } from '../geometry/vector.ts';

/** The angle inside a clockwise outline where one path ends and the next begins, in radians from 0 to 2 pi: a quarter turn at a square corner. */
export const insideAngle = (path: Path, next: Path): number =>
  Math.PI - turn(tangentOn(path.segments.at(-1)!, 1), tangentOn(next.segments[0]!, 0));
