/**
 * A seam that turns with its part below (or above) a level and stays beyond it. The two ends would lie a little apart on the level: so
 * the turn sets in gradually over a short stretch, b(s)(R(p) - p) at the distance s from the level along the seam, b rising from
 * 0 to 1 and flat at both ends, and is rigid from there on.
 */

import { lengthBetween, locationAtLength, pathLength, segmentLength } from '../../geometry/arc-length.ts';
import { derivativeOn, pointOn, tangentOn } from '../../geometry/evaluate.ts';
import { fitCubics } from '../../geometry/fit-cubics.ts';
import type { Matrix } from '../../geometry/matrix.ts';
import type { Path } from '../../geometry/path.ts';
import { distance, movePoint, type Point } from '../../geometry/point.ts';
import type { Segment } from '../../geometry/segment.ts';
import { subPath } from '../../geometry/sub-path.ts';
import { REFIT_TOLERANCE } from '../../geometry/tolerance.ts';
import { transformPath, transformPoint } from '../../geometry/transform-path.ts';
import { dot, magnitude, plus, scaled, vectorTo, type Vector } from '../../geometry/vector.ts';

/**
 * The turn sets in over this share of the part, so that the seam bends off its level in a long fair curve and not at a point; longer,
 * this many times what it must give way, where that is much; at most half.
 */
const GRADUAL = 0.4;
const STRETCH = 8;
const MOST_OF_PART = 1 / 2;

/** Where a blended seam would run at under a fifth of its pace it is about to double back. */
const SLOWEST = 1 / 5;

const PACES = 8;

const rise = (t: number): number => t * t * (3 - 2 * t);
const slope = (t: number): number => 6 * t * (1 - t);

interface Blended {
  readonly point: (t: number) => Point;
  readonly derivative: (t: number) => Vector;
}

/** One segment that begins `before` millimetres past the level, under the blend over `stretch`. */
const blended = (s: Segment, before: number, stretch: number, matrix: Matrix): Blended => {
  const share = (t: number): number => Math.min(1, (before + lengthBetween(s, 0, t)) / stretch);
  const way = (p: Point): Vector => vectorTo(p, transformPoint(p, matrix));
  return {
    point: (t) => {
      const p = pointOn(s, t);
      return movePoint(p, scaled(way(p), rise(share(t))));
    },
    derivative: (t) => {
      const [p, d, at] = [pointOn(s, t), derivativeOn(s, t), share(t)];
      const turned = { dx: matrix.a * d.dx + matrix.c * d.dy - d.dx, dy: matrix.b * d.dx + matrix.d * d.dy - d.dy };
      const pace = (slope(at) * magnitude(d)) / stretch;
      return plus(plus(d, scaled(turned, rise(at))), scaled(way(p), pace));
    },
  };
};

const doublesBack = (s: Segment, curve: Blended): boolean =>
  Array.from({ length: PACES + 1 }, (_, i) => i / PACES).some((t) => {
    const [direction, pace] = [tangentOn(s, t), magnitude(derivativeOn(s, t))];
    return dot(curve.derivative(t), direction) < SLOWEST * pace;
  });

/**
 * The path that begins on the level, turned by a rigid motion but for its start, which stays with its tangent. Exactly rigid beyond the
 * stretch, within REFIT_TOLERANCE on it. Undefined where the path is too short to give way so far.
 */
export const blendTurn = (path: Path, matrix: Matrix): Path | undefined => {
  const start = path.segments[0]!.start;
  const length = pathLength(path);
  const givesWay = distance(start, transformPoint(start, matrix));
  if (givesWay * STRETCH < REFIT_TOLERANCE) return transformPathFrom(path, matrix, start);
  const stretch = Math.min(Math.max(STRETCH * givesWay, length * GRADUAL), length * MOST_OF_PART);
  const until = locationAtLength(path, stretch);
  const near = subPath(path, { segment: 0, t: 0 }, until).segments;
  const rest = transformPath(subPath(path, until, { segment: path.segments.length - 1, t: 1 }), matrix).segments;
  const segments: Segment[] = [];
  let before = 0;
  for (const [index, s] of near.entries()) {
    const curve = blended(s, before, stretch, matrix);
    if (doublesBack(s, curve)) return undefined;
    const isLast = index === near.length - 1;
    const fitted = fitCubics(curve, 0, 1, REFIT_TOLERANCE);
    const end = isLast ? rest[0]!.start : curve.point(1);
    const begin = segments.at(-1)?.end ?? start;
    segments.push(...fitted.map((piece, i) => ({ ...piece, ...(i === 0 ? { start: begin } : {}) })));
    segments[segments.length - 1] = { ...segments.at(-1)!, end };
    before += segmentLength(s);
  }
  return { segments: [...segments, ...rest] };
};

/** Where the motion leaves the start all but in place there is nothing to blend. */
const transformPathFrom = (path: Path, matrix: Matrix, start: Point): Path => {
  const [first, ...others] = transformPath(path, matrix).segments;
  return { segments: [{ ...first!, start }, ...others] };
};
