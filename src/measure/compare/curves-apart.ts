/**
 * How far two lines lie from each other.
 *
 * From many places of each the nearest point of the other is looked for, exactly. The places are so near to each other that a line bends by
 * less than LOOK_BEND between two of them. Along the chord between two places a distance is never greater than at both of them (it is
 * convex), so what is found is too small by no more than what both lines bend in between: 0.005 mm.
 */

import { tangentOn } from '../../geometry/evaluate.ts';
import { flattenPath } from '../../geometry/flatten.ts';
import { nearestPoint } from '../../geometry/nearest-point.ts';
import type { Path } from '../../geometry/path.ts';
import { between, type Point } from '../../geometry/point.ts';
import { SAME_POINT } from '../../geometry/tolerance.ts';
import { dot, vectorTo } from '../../geometry/vector.ts';

const LOOK_BEND = 0.002;

/** A straight piece is looked at in so many places, since the other line may end anywhere beside it. */
const LOOKS_ON_LINE = 8;

/** A distance between two lines: between which of their points. */
export interface Apart {
  readonly distance: number;
  readonly before: Point;
  readonly after: Point;
}

interface Look extends Apart {
  /** The place lies past the other line's end, not beside it. */
  readonly isPast: boolean;
}

const placesOn = (path: Path): Point[] =>
  path.segments.flatMap((s) =>
    s.kind === 'line'
      ? Array.from({ length: LOOKS_ON_LINE + 1 }, (_, i) => between(s.start, s.end, i / LOOKS_ON_LINE))
      : flattenPath({ segments: [s] }, LOOK_BEND),
  );

const looksFrom = (
  path: Path,
  other: Path,
): { readonly at: Point; readonly near: Point; readonly distance: number; readonly isPast: boolean }[] => {
  const last = other.segments.length - 1;
  const [first, end] = [tangentOn(other.segments[0]!, 0), tangentOn(other.segments[last]!, 1)];
  return placesOn(path).map((at) => {
    const { point: near, location, distance } = nearestPoint(other, at);
    const away = vectorTo(near, at);
    const isPast =
      (location.segment === 0 && location.t === 0 && dot(away, first) < -SAME_POINT) ||
      (location.segment === last && location.t === 1 && dot(away, end) > SAME_POINT);
    return { at, near, distance, isPast };
  });
};

/** Of places equally far apart the highest, then the leftmost: the same one whichever line comes first. */
const farthest = (looks: readonly Look[]): Look | undefined =>
  looks.reduce<Look | undefined>((best, look) => {
    if (best === undefined) return look;
    const farther = look.distance - best.distance;
    if (Math.abs(farther) > SAME_POINT / 10) return farther > 0 ? look : best;
    const higher = best.before.y + best.after.y - look.before.y - look.after.y;
    const lefter = best.before.x + best.after.x - look.before.x - look.after.x;
    return higher > SAME_POINT || (Math.abs(higher) <= SAME_POINT && lefter > SAME_POINT) ? look : best;
  }, undefined);

/**
 * The greatest distance of either line from the other: `all` of it, and `beside`, only where the two run beside each other, so that a line
 * that merely goes on farther has not moved. At most 0.005 mm too small. `beside` is undefined where neither runs beside the other.
 */
export const curvesApart = (before: Path, after: Path): { readonly all: Apart; readonly beside: Apart | undefined } => {
  const looks: Look[] = [
    ...looksFrom(before, after).map(({ at, near, ...look }) => ({ ...look, before: at, after: near })),
    ...looksFrom(after, before).map(({ at, near, ...look }) => ({ ...look, before: near, after: at })),
  ];
  const told = (look: Look | undefined): Apart | undefined =>
    look && { distance: look.distance, before: look.before, after: look.after };
  return { all: told(farthest(looks))!, beside: told(farthest(looks.filter(({ isPast }) => !isPast))) };
};
