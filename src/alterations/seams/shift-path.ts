/**
 * Moving a path sideways by an amount that depends on the height: x grows by amount(y). As a map of the plane this cannot fold, so a
 * path that does not cross itself never will. Where the amount is constant control points just move with it; a straight piece under a
 * cubic amount becomes exactly one cubic; only a curve under a varying amount is fitted anew, to REFIT_TOLERANCE.
 */

import { pathBox } from '../../geometry/box.ts';
import { derivativeOn, pointOn, tangentOn } from '../../geometry/evaluate.ts';
import { fitCubics } from '../../geometry/fit-cubics.ts';
import { crossHorizontal } from '../../geometry/intersect.ts';
import type { Path } from '../../geometry/path.ts';
import { distance, type Point } from '../../geometry/point.ts';
import { cubic, line, type Segment } from '../../geometry/segment.ts';
import { splitSegment } from '../../geometry/split.ts';
import { BREAK_NEAR_NODE, REFIT_TOLERANCE } from '../../geometry/tolerance.ts';
import { magnitude, type Vector } from '../../geometry/vector.ts';
import type { AmountAlong } from './amount-along.ts';

/** The path with a node wherever it passes one of these heights, save where a node is all but there. */
export const splitAtHeights = (path: Path, heights: readonly number[]): Segment[] => {
  const cuts = path.segments.map((): number[] => []);
  for (const y of heights) {
    for (const { location, point } of crossHorizontal(path, y)) {
      const { start, end } = path.segments[location.segment]!;
      if (Math.min(distance(point, start), distance(point, end)) < BREAK_NEAR_NODE) continue;
      cuts[location.segment]!.push(location.t);
    }
  }
  return path.segments.flatMap((segment, index) => {
    const pieces: Segment[] = [];
    let [rest, done] = [segment, 0];
    for (const t of cuts[index]!.toSorted((a, b) => a - b)) {
      const [piece, after] = splitSegment(rest, (t - done) / (1 - done));
      pieces.push(piece);
      [rest, done] = [after, t];
    }
    return [...pieces, rest];
  });
};

/** Whether the amount is the same all over the heights of a segment that has no break inside. */
export const isConstantOver = (amount: AmountAlong, low: number, high: number): boolean => {
  const [first, last] = [amount.breaks[0], amount.breaks.at(-1)];
  if (first === undefined || last === undefined) return true;
  if (high <= first + BREAK_NEAR_NODE || low >= last - BREAK_NEAR_NODE) return true;
  const inside = [low, (low * 2 + high) / 3, (low + high * 2) / 3, high].map((y) => amount.value(y));
  return inside.every((value) => value === inside[0]);
};

const moved = (p: Point, dx: number): Point => ({ x: p.x + dx, y: p.y });

const movedWhole = (segment: Segment, dx: number): Segment => {
  if (dx === 0) return segment;
  const [start, end] = [moved(segment.start, dx), moved(segment.end, dx)];
  return segment.kind === 'line'
    ? line(start, end)
    : cubic(start, moved(segment.startHandle, dx), moved(segment.endHandle, dx), end);
};

/** Under a cubic amount each coordinate of a straight piece is a cubic in t: its ends and end derivatives say all of it. */
const movedLine = (segment: Segment, start: Point, end: Point, amount: AmountAlong): Segment => {
  const along = derivativeOn(segment, 0);
  const third = (from: Point, y: number, way: 1 | -1): Point => ({
    x: from.x + (way * (along.dx + amount.slope(y) * along.dy)) / 3,
    y: from.y + (way * along.dy) / 3,
  });
  return cubic(start, third(start, segment.start.y, 1), third(end, segment.end.y, -1), end);
};

const refitted = (segment: Segment, start: Point, end: Point, amount: AmountAlong, tolerance: number): Segment[] => {
  const travel = (t: number): Vector => {
    const v = derivativeOn(segment, t);
    return magnitude(v) > 0 ? v : tangentOn(segment, t);
  };
  return fitCubics(
    {
      point: (t) => {
        if (t === 0 || t === 1) return t === 0 ? start : end;
        const p = pointOn(segment, t);
        return moved(p, amount.value(p.y));
      },
      derivative: (t) => {
        const { dx, dy } = travel(t);
        return { dx: dx + amount.slope(pointOn(segment, t).y) * dy, dy };
      },
    },
    0,
    1,
    tolerance,
  );
};

/**
 * The path with every point moved sideways by the amount at its height (positive: to larger x). Parts under no amount are the very
 * same segments. Exact where the amount is constant or the path straight, within `tolerance` elsewhere; at each of the amount's breaks
 * the path has a node that moved by exactly the amount there.
 */
export const shiftPath = (path: Path, amount: AmountAlong, tolerance = REFIT_TOLERANCE): Path => {
  const atNode = (p: Point): Point => {
    const near = amount.breaks.find((y) => Math.abs(y - p.y) < BREAK_NEAR_NODE);
    const dx = amount.value(near ?? p.y);
    return dx === 0 ? p : moved(p, dx);
  };
  const segments = splitAtHeights(path, amount.breaks).flatMap((segment): Segment[] => {
    const { minY: low, maxY: high } = pathBox({ segments: [segment] });
    if (isConstantOver(amount, low, high)) return [movedWhole(segment, amount.value((low + high) / 2))];
    const [start, end] = [atNode(segment.start), atNode(segment.end)];
    if (segment.kind === 'line') {
      return segment.start.y === segment.end.y ? [line(start, end)] : [movedLine(segment, start, end, amount)];
    }
    return refitted(segment, start, end, amount, tolerance);
  });
  return { segments };
};
