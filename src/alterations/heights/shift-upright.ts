/**
 * Moving a path straight up or down by an amount that depends on the height: y grows by amount(y). Where the amount is constant control
 * points just move with it, and an upright line stays one; all else is fitted anew, to REFIT_TOLERANCE.
 */

import { pathBox } from '../../geometry/box.ts';
import { derivativeOn, pointOn, tangentOn } from '../../geometry/evaluate.ts';
import { fitCubics } from '../../geometry/fit-cubics.ts';
import type { Blend } from '../../geometry/monotone-blend.ts';
import type { Path } from '../../geometry/path.ts';
import type { Point } from '../../geometry/point.ts';
import { cubic, line, type Segment } from '../../geometry/segment.ts';
import { simplifyPath } from '../../geometry/simplify-path.ts';
import { BREAK_NEAR_NODE, REFIT_TOLERANCE } from '../../geometry/tolerance.ts';
import { magnitude, type Vector } from '../../geometry/vector.ts';
import { isConstantOver, splitAtHeights } from '../seams/shift-path.ts';
import { tidied } from '../tidied.ts';

/**
 * How far every height `y` moves, in millimetres, positive downwards; smooth, and nowhere with a slope of -1 or less, so that no two
 * heights change places. Beyond the outermost `breaks` it is constant.
 */
export interface AmountUpright extends Blend {
  readonly breaks: readonly number[];
}

const movedDown = (p: Point, dy: number): Point => (dy === 0 ? p : { x: p.x, y: p.y + dy });

/** How far a node moves: one all but at a break, as that break does. */
const atNode = (amount: AmountUpright, { y }: Point): number =>
  amount.value(amount.breaks.find((other) => Math.abs(other - y) < BREAK_NEAR_NODE) ?? y);

const translated = (s: Segment, dy: number): Segment => {
  if (dy === 0) return s;
  const [start, end] = [movedDown(s.start, dy), movedDown(s.end, dy)];
  return s.kind === 'line'
    ? line(start, end)
    : cubic(start, movedDown(s.startHandle, dy), movedDown(s.endHandle, dy), end);
};

const refitted = (s: Segment, start: Point, end: Point, amount: AmountUpright, tolerance: number): Segment[] => {
  const travel = (t: number): Vector => {
    const v = derivativeOn(s, t);
    return magnitude(v) > 0 ? v : tangentOn(s, t);
  };
  const curve = {
    point: (t: number): Point => {
      if (t === 0 || t === 1) return t === 0 ? start : end;
      const p = pointOn(s, t);
      return movedDown(p, amount.value(p.y));
    },
    derivative: (t: number): Vector => {
      const { dx, dy } = travel(t);
      return { dx, dy: dy * (1 + amount.slope(pointOn(s, t).y)) };
    },
  };
  return fitCubics(curve, 0, 1, tolerance);
};

/** A piece without breaks inside: `rigid` where it only moved as it is. */
const movedPiece = (
  piece: Segment,
  amount: AmountUpright,
  tolerance: number,
): { readonly segments: readonly Segment[]; readonly rigid: boolean } => {
  const { minY, maxY } = pathBox({ segments: [piece] });
  const [from, to] = [atNode(amount, piece.start), atNode(amount, piece.end)];
  if (from === to && isConstantOver(amount, minY, maxY)) return { segments: [translated(piece, from)], rigid: true };
  const [start, end] = [movedDown(piece.start, from), movedDown(piece.end, to)];
  const stays = piece.kind === 'line' && (piece.start.x === piece.end.x || piece.start.y === piece.end.y);
  return { segments: stays ? [line(start, end)] : refitted(piece, start, end, amount, tolerance), rigid: false };
};

/**
 * The path with every point moved straight up or down by the amount at its height. Segments under no amount are the very same objects,
 * those under a constant one only move; the rest is within `tolerance` of its true image, and again as much where pieces could be
 * joined. A node within BREAK_NEAR_NODE of a break moves as that break does.
 */
export const shiftUpright = (path: Path, amount: AmountUpright, tolerance = REFIT_TOLERANCE): Path => {
  const done: Segment[] = [];
  let loose: Segment[] = [];
  let drawn = 0;
  const joinLoose = (): void => {
    done.push(...(loose.length > drawn ? simplifyPath({ segments: loose }, tolerance).segments : loose));
    [loose, drawn] = [[], 0];
  };
  for (const segment of path.segments) {
    const pieces = splitAtHeights({ segments: [segment] }, amount.breaks).map((s) => movedPiece(s, amount, tolerance));
    if (pieces.length === 1 && pieces[0]!.rigid) {
      joinLoose();
      done.push(...pieces[0]!.segments);
    } else {
      loose.push(...pieces.flatMap(({ segments }) => segments));
      drawn += 1;
    }
  }
  joinLoose();
  if (done.every((segment, index) => segment === path.segments[index])) return path;
  const most = 2 * path.segments.length + 5;
  return done.length > most ? tidied({ segments: done }, path) : { segments: done };
};
