import { lengthTo, locationAtLength, pathLength } from '../geometry/arc-length.ts';
import { pointOn } from '../geometry/evaluate.ts';
import { flattenPath } from '../geometry/flatten.ts';
import { nearestPoint } from '../geometry/nearest-point.ts';
import type { Location, Path } from '../geometry/path.ts';
import { pointsPath } from '../geometry/points-path.ts';
import { subPath } from '../geometry/sub-path.ts';

/** Less than this between two lines is no change that a picture shows. Millimetres. */
export const SEEN_APART = 0.1;

/** From one place that is looked at to the next along an edge, and how far an area's border may be off. Millimetres. */
const [STEP, BORDER] = [1.5, 0.02] as const;

/** A stretch of an edge that lies elsewhere than before. */
export interface Stretch {
  /** Along the edge as it is now. */
  readonly line: Path;
  /** What lies between it and the edge as it was; closed. */
  readonly between: Path;
}

/** Of a stretch that reaches an end of the edge, the whole of the edge as it was up to that end: its corner went along. */
const formerPart = (
  former: Path,
  from: Location,
  to: Location,
  [isStart, isEnd]: readonly [boolean, boolean],
): Path => {
  const first = isStart ? { segment: 0, t: 0 } : from;
  const last = isEnd ? { segment: former.segments.length - 1, t: 1 } : to;
  const isForwards = first.segment < last.segment || (first.segment === last.segment && first.t < last.t);
  return isForwards
    ? subPath(former, first, last)
    : pointsPath([first, last].map((at) => pointOn(former.segments[at.segment]!, at.t)));
};

/** The stretches of `now` that lie more than 0.1 mm from `former`, to 1.5 mm along the edge. Both run the same way. */
export const changedStretches = (former: Path, now: Path): Stretch[] => {
  const length = pathLength(now);
  const count = Math.max(1, Math.ceil(length / STEP));
  const places = Array.from({ length: count + 1 }, (_, i) => locationAtLength(now, (length * i) / count));
  const isOff = places.map(
    ({ segment, t }) => nearestPoint(former, pointOn(now.segments[segment]!, t)).distance > SEEN_APART,
  );
  const runs: [number, number][] = [];
  for (const [i, off] of isOff.entries()) {
    const last = runs.at(-1);
    if (!off) continue;
    if (last && last[1] === i - 1) last[1] = i;
    else runs.push([i, i]);
  }
  return runs.map(([first, last]) => {
    // Out to the neighbours that lie on the former line: the stretch begins where the lines part.
    const [i, j] = [Math.max(0, first - 1), Math.min(count, last + 1)];
    const line = subPath(now, places[i]!, places[j]!);
    const [from, to] = [i, j].map(
      (at) => nearestPoint(former, pointOn(now.segments[places[at]!.segment]!, places[at]!.t)).location,
    );
    const was = formerPart(former, from!, to!, [first === 0, last === count]);
    const border = [...flattenPath(line, BORDER), ...flattenPath(was, BORDER).toReversed()];
    return { line, between: pointsPath(border, true) };
  });
};

/** Whether an edge that goes on along its former line goes on farther than it did, at its start and at its end. */
export const addedEnds = (former: Path, now: Path): Path[] => {
  const length = pathLength(now);
  const ends = [former.segments[0]!.start, former.segments.at(-1)!.end];
  const [start, end] = ends.map((at) => lengthTo(now, nearestPoint(now, at).location));
  const whole = (from: number, to: number): Path[] =>
    to - from > SEEN_APART ? [subPath(now, locationAtLength(now, from), locationAtLength(now, to))] : [];
  return [...whole(0, start!), ...whole(end!, length)];
};
