/**
 * Redrawing a top or bottom edge between corners that slide along the seams beside it.
 *
 * Every point of the edge moves along its own line of the fan between the two corners' paths, by the amount for its share of the way
 * across. Points of one line move alike, so that the edge cannot cross itself, and the opposite amounts bring it back.
 */

import { derivativeOn, pointOn, tangentOn } from '../../geometry/evaluate.ts';
import { fitCubics } from '../../geometry/fit-cubics.ts';
import { monotoneBlend, type Blend } from '../../geometry/monotone-blend.ts';
import { nearestPoint } from '../../geometry/nearest-point.ts';
import { pathEnd, type Path } from '../../geometry/path.ts';
import { movePoint, type Point } from '../../geometry/point.ts';
import { reversePath } from '../../geometry/reverse-path.ts';
import { line, type Segment } from '../../geometry/segment.ts';
import { REFIT_TOLERANCE, SAME_POINT } from '../../geometry/tolerance.ts';
import { cross, dot, magnitude, plus, scaled, unit, vectorTo, type Vector } from '../../geometry/vector.ts';
import { sidesOf } from '../../pattern/look-up.ts';
import type { Edge, Notch, Panel } from '../../pattern/panel.ts';
import { carryNotch } from '../../pattern/settle-marks.ts';
import type { Fan } from './fan-of-lines.ts';
import { outwards, slideCorners, type EdgeEnds } from './slide-corners.ts';
import { tidied } from '../tidied.ts';

export type { EdgeEnds } from './slide-corners.ts';

/** The amount for each share `u` of the way across, 0 on the front seam and 1 on the back seam, with its slope. */
export type AmountOnEdge = Blend;

/** Beyond the two sides of the fan a point moves as on the nearer one. */
const held = (u: number): number => Math.min(1, Math.max(0, u));

interface Moving {
  readonly fan: Fan;
  readonly amount: AmountOnEdge;
}

const movedPoint = (p: Point, { fan, amount }: Moving): Point => {
  const u = held(fan.shareAt(p)!.u);
  return movePoint(p, scaled(fan.along(u), amount.value(u)));
};

/** The derivative of a moved point that travels by `v`. */
const movedTravel = (p: Point, v: Vector, { fan, amount }: Moving): Vector => {
  const { u, gradient } = fan.shareAt(p)!;
  if (u !== held(u)) return v;
  const turned = plus(scaled(fan.along(u), amount.slope(u)), scaled(fan.opening, amount.value(u)));
  return plus(v, scaled(turned, dot(gradient, v)));
};

/** A line in place of cubics that are one within the tolerance. */
const straightened = (fitted: readonly Segment[]): readonly Segment[] => {
  const [start, end] = [fitted[0]!.start, fitted.at(-1)!.end];
  const along = unit(vectorTo(start, end));
  const points = fitted.flatMap((s) => (s.kind === 'line' ? [s.end] : [s.startHandle, s.endHandle, s.end]));
  const straight = points.every((p) => Math.abs(cross(along, vectorTo(start, p))) <= REFIT_TOLERANCE);
  return straight ? [line(start, end)] : fitted;
};

const movedSegment = (segment: Segment, start: Point, end: Point, moving: Moving): readonly Segment[] => {
  const travel = (t: number): Vector => {
    const v = derivativeOn(segment, t);
    return magnitude(v) > 0 ? v : tangentOn(segment, t);
  };
  const point = (t: number): Point => {
    if (t === 0 || t === 1) return t === 0 ? start : end;
    return movedPoint(pointOn(segment, t), moving);
  };
  const derivative = (t: number): Vector => movedTravel(pointOn(segment, t), travel(t), moving);
  const fitted = fitCubics({ point, derivative }, 0, 1, REFIT_TOLERANCE);
  return segment.kind === 'line' ? straightened(fitted) : fitted;
};

/** The edge moved, from its front end to its back end; its ends are the new corners exactly. */
const movedEdge = (path: Path, moving: Moving, front: Point, back: Point): Path => {
  const last = path.segments.length - 1;
  let start = front;
  const segments = path.segments.flatMap((segment, index) => {
    const end = index === last ? back : movedPoint(segment.end, moving);
    const moved = movedSegment(segment, start, end, moving);
    start = end;
    return moved;
  });
  return tidied({ segments }, path);
};

/** Whether every line of the fan that the path reaches is there: no point lies at or past where the two seams would meet. */
const within = (path: Path, fan: Fan): boolean =>
  path.segments
    .flatMap((s) => (s.kind === 'line' ? [s.start, s.end] : [s.start, s.startHandle, s.endHandle, s.end]))
    .every((p) => fan.shareAt(p) !== undefined);

const movesNothing = (ends: EdgeEnds, amount: AmountOnEdge): boolean =>
  ends.front === 0 && ends.back === 0 && [1, 2, 3, 4, 5, 6, 7].every((i) => Math.abs(amount.value(i / 8)) < SAME_POINT);

/** The notch moved with its place on the edge, both edges in the direction of the outline. */
const movedNotch = (notch: Notch, before: Path, after: Path, moving: Moving): Notch => {
  const { location, point: at } = nearestPoint(before, notch.at);
  return carryNotch(notch, before, location, after, nearestPoint(after, movedPoint(at, moving)).location);
};

const changed = (edge: Edge, path: Path): Edge => {
  if (path === edge.path) return edge;
  const { text: _text, ...kept } = edge;
  return { ...kept, path };
};

/**
 * The panel with its top or bottom edge redrawn: each end slides along the seam there by exactly its amount of seam length, the seam
 * being cut off or drawn on along itself, and between them the edge moves by `amount` (by default one blend, flat at both ends), whose
 * values at 0 and 1 must be those of `ends`. Corners within the edge stay corners; a seam whose end does not move is the very same object,
 * and so is the panel where nothing moves. Notches on the edge move with it; other marks are not settled. Amounts at the ends are exact to LENGTH_TOLERANCE, the edge to
 * REFIT_TOLERANCE. Instead of a panel, the reason in words that follow its name where there is none.
 */
export const slideEdge = (
  panel: Panel,
  which: 'top' | 'bottom',
  ends: EdgeEnds,
  amount: AmountOnEdge = monotoneBlend(
    [
      { at: 0, value: ends.front },
      { at: 1, value: ends.back },
    ],
    'flat',
  ),
): Panel | string => {
  const sides = sidesOf(panel);
  if (!sides) return 'has no top, bottom and two seam edges';
  if (movesNothing(ends, amount)) return panel;
  const corners = slideCorners(panel, which, ends);
  if (typeof corners === 'string') return corners;
  const { front, back, fan } = corners;
  const edge = sides[which];
  const along = (path: Path): Path => (which === 'top' ? path : reversePath(path));
  const fanned = { fan, amount };
  const moved = within(edge.path, fan)
    ? movedEdge(along(edge.path), fanned, pathEnd(front.after), pathEnd(back.after))
    : undefined;
  if (!moved || !within(moved, fan)) return `would have a ${which} that reaches to where its seams would meet`;
  const seam = (side: 'front' | 'back'): Edge =>
    corners[side].after === corners[side].before
      ? sides[side]
      : changed(sides[side], outwards(corners[side].after, which, side));
  const redrawn = new Map<Edge, Edge>([
    [edge, changed(edge, along(moved))],
    [sides.front, seam('front')],
    [sides.back, seam('back')],
  ]);
  return {
    ...panel,
    edges: panel.edges.map((old) => redrawn.get(old) ?? old),
    notches: panel.notches.map((notch) =>
      notch.edge === which ? movedNotch(notch, edge.path, along(moved), fanned) : notch,
    ),
  };
};
