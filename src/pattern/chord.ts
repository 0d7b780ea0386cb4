/**
 * The chord of a panel along a horizontal line between its two stitching edges.
 *
 * An edge that swings back and forth crosses the line several times; its crossings count with the direction in which they
 * pass, so the width is what lies inside the panel and grows by exactly the amount by which an edge is moved along the line.
 */

import { crossHorizontal } from '../geometry/intersect.ts';
import { pointOn } from '../geometry/evaluate.ts';
import { pathEnd, pathStart, type Path } from '../geometry/path.ts';
import { SAME_POINT } from '../geometry/tolerance.ts';
import { seamSidesOf } from './look-up.ts';
import type { Panel } from './panel.ts';

/** `fromX` is on the front edge, `toX` on the back edge; for edges that cross once `width` is their difference. */
export interface Chord {
  readonly fromX: number;
  readonly toX: number;
  readonly width: number;
}

/** Where an edge crosses a level. */
export interface EdgeCrossing {
  /** Where the edge is first met. */
  readonly x: number;
  /** Sum of its crossings, each with its direction: what the edge contributes to a width. */
  readonly sum: number;
}

/** The heights between which both seam edges of a panel run: its `top` and `bottom` levels. Undefined for an unlabelled panel. */
export const seamSpan = (panel: Panel): { readonly top: number; readonly bottom: number } | undefined => {
  const sides = seamSidesOf(panel);
  if (!sides) return undefined;
  const ends = [sides.front, sides.back].map(({ path }) => [pathStart(path).y, pathEnd(path).y] as const);
  return {
    top: Math.max(...ends.map(([a, b]) => Math.min(a, b))),
    bottom: Math.min(...ends.map(([a, b]) => Math.max(a, b))),
  };
};

/**
 * Where an edge crosses the horizontal line at `y`; undefined where its two ends are not on either side of it.
 * A line up to `SAME_POINT` past an end still meets that end.
 */
export const crossEdge = (path: Path, y: number): EdgeCrossing | undefined => {
  const [start, end] = [pathStart(path), pathEnd(path)];
  if (Math.abs(y - start.y) < SAME_POINT) return { x: start.x, sum: start.x };
  if (Math.abs(y - end.y) < SAME_POINT) return { x: end.x, sum: end.x };
  if (start.y < y === end.y < y) return undefined;
  const crossings = crossHorizontal(path, y);
  const goingDown = Math.sign(end.y - start.y);
  const last = path.segments.length - 1;
  const heightAt = (u: number): number => {
    const segment = Math.min(Math.floor(u), last);
    return pointOn(path.segments[segment]!, u - segment).y;
  };
  let side = -goingDown;
  let sum = 0;
  for (const [index, crossing] of crossings.entries()) {
    const here = crossing.location.segment + crossing.location.t;
    const next = crossings[index + 1];
    const until = next ? next.location.segment + next.location.t : last + 1;
    const after = next ? Math.sign(heightAt((here + until) / 2) - y) || side : goingDown;
    sum += ((after - side) / 2) * goingDown * crossing.point.x;
    side = after;
  }
  return crossings.length === 0 ? undefined : { x: crossings[0]!.point.x, sum };
};

/** The chord at height `y`, or undefined where one of the seam edges does not reach it or the panel was never labelled. */
export const chordAt = (panel: Panel, y: number): Chord | undefined => {
  const sides = seamSidesOf(panel);
  if (!sides) return undefined;
  const [front, back] = [crossEdge(sides.front.path, y), crossEdge(sides.back.path, y)];
  return front && back && { fromX: front.x, toX: back.x, width: back.sum - front.sum };
};
