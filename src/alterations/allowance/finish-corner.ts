/**
 * How the cutting line goes round the corner where a seam meets a top or bottom edge.
 *
 * `square`: the seam's stitching line runs on straight to the edge's cutting line; there the seam's allowance is cut off at right
 * angles to the seam, so that both sides of a sewn seam end alike. `folded`: past the edge's stitching line the seam's cutting line is
 * its own mirror image about that line (about its tangent in the corner, where it is curved), so that the allowance turned back lies
 * flat on the panel.
 */

import { StaywrightError } from '../../errors.ts';
import { tangentOn } from '../../geometry/evaluate.ts';
import { intersectPaths } from '../../geometry/intersect.ts';
import { compose, rotation, scaling, translation, type Matrix } from '../../geometry/matrix.ts';
import { joinPaths } from '../../geometry/join-paths.ts';
import { nearestPoint } from '../../geometry/nearest-point.ts';
import { offsetPath } from '../../geometry/offset-path.ts';
import { pathEnd, pathStart, type Path } from '../../geometry/path.ts';
import { distance, movePoint, type Point } from '../../geometry/point.ts';
import { reversePath } from '../../geometry/reverse-path.ts';
import { line } from '../../geometry/segment.ts';
import { transformPath } from '../../geometry/transform-path.ts';
import { trimEnd, trimStart } from '../../geometry/trim-path.ts';
import { CORNER_TURN, SAME_POINT } from '../../geometry/tolerance.ts';
import { leftNormal, scaled, turn, type Vector } from '../../geometry/vector.ts';
import type { CornerStyle } from '../../pattern/panel.ts';
import { ALLOWANCE_TOLERANCE } from './allowance-widths.ts';

/** An edge's stitching line, its cutting line as far as the mitred corner, and the width between them. */
export interface CornerSide {
  readonly edge: Path;
  readonly cut: Path;
  readonly width: number;
}

export interface FinishedCorner {
  readonly first: Path;
  readonly between: Path[];
  readonly second: Path;
}

/** How far past a corner lines are followed, as a multiple of the wider allowance: past that the corner is all but straight. */
const REACH = 8;

/**
 * The two cutting lines that meet in a corner, and what joins them; `seam` says which of them is the seam. Undefined where the style
 * makes no difference: without a width, or in a corner that does not point outwards. Throws `impossible` where it cannot be drawn,
 * because the edges run on nearly in one line or one flap would lie over another.
 */
export const finishCorner = (
  style: Exclude<CornerStyle, 'mitre'>,
  first: CornerSide,
  second: CornerSide,
  seam: 'first' | 'second',
): FinishedCorner | undefined => {
  const out = turn(tangentOn(first.edge.segments.at(-1)!, 1), tangentOn(second.edge.segments[0]!, 0));
  if (out <= CORNER_TURN) return undefined;
  const finish = style === 'square' ? squareEnd : foldedEnd;
  if (seam === 'first') {
    const done = finish(first, second, 1);
    return done && { first: done.seam, between: done.between, second: done.turned };
  }
  const done = finish(reversed(second), reversed(first), -1);
  return (
    done && {
      first: reversePath(done.turned),
      between: done.between.map(reversePath).toReversed(),
      second: reversePath(done.seam),
    }
  );
};

interface Finished {
  readonly seam: Path;
  readonly between: Path[];
  readonly turned: Path;
}

const reversed = ({ edge, cut, width }: CornerSide): CornerSide => ({
  edge: reversePath(edge),
  cut: reversePath(cut),
  width,
});

/** The seam comes first and ends in the corner; `side` is 1 where outwards is to its left, -1 where it is to its right. */
const squareEnd = (seam: CornerSide, turned: CornerSide, side: 1 | -1): Finished | undefined => {
  const corner = pathEnd(seam.edge);
  const along = tangentOn(seam.edge.segments.at(-1)!, 1);
  const reach = REACH * Math.max(seam.width, turned.width);
  if (seam.width === 0) return undefined;
  const met = intersectPaths(ray(corner, along, reach), turned.cut)[0] ?? refuse('square', corner);
  const out = scaled(leftNormal(along), side * seam.width);
  const beside = movePoint(corner, out);
  const tip = movePoint(met.point, out);
  const cut = reversePath(grownBack(reversed(seam), -side));
  const run = nearestPoint(cut, beside);
  return {
    seam: goOnTo(trimEnd(cut, run.location, run.point), tip),
    between: [straight(tip, met.point)],
    turned: trimStart(turned.cut, met.b, met.point),
  };
};

const foldedEnd = (seam: CornerSide, turned: CornerSide, side: 1 | -1): Finished | undefined => {
  if (turned.width === 0) return undefined;
  const corner = pathStart(turned.edge);
  const inwards = tangentOn(turned.edge.segments[0]!, 0);
  const reach = REACH * Math.max(seam.width, turned.width);
  const outwards = scaled(inwards, -1);
  const fold = seam.width === 0 ? undefined : nearestTo(corner, intersectPaths(seam.cut, ray(corner, outwards, reach)));
  const foldPoint = fold?.point ?? corner;
  const inner = fold ? trimEnd(seam.cut, fold.a, foldPoint) : trimmedAt(seam.cut, corner);
  const image = transformPath(reversePath(inner), mirrorAbout(corner, inwards));
  const flap = goOn({ segments: [{ ...image.segments[0]!, start: foldPoint }, ...image.segments.slice(1)] }, reach);
  const base = reversePath(goOn(reversePath(grownBack(turned, side)), reach));
  const met = intersectPaths(flap, base)[0] ?? refuse('folded', corner);
  return {
    seam: inner,
    between: [trimEnd(flap, met.a, met.point)],
    turned: trimStart(base, met.b, met.point),
  };
};

/** The cutting line from beside the corner on, also where the corner cut it off later than that; `side` as for `squareEnd`. */
const grownBack = ({ edge, cut, width }: CornerSide, side: number): Path => {
  const [first] = edge.segments;
  const beside = movePoint(first!.start, scaled(leftNormal(tangentOn(first!, 0)), side * width));
  if (width === 0 || nearestPoint(cut, beside).distance <= SAME_POINT) return cut;
  const start = pathStart(cut);
  const whole = offsetPath({ segments: [first!] }, side * width, ALLOWANCE_TOLERANCE);
  const met = nearestPoint(whole, start);
  return met.distance > SAME_POINT ? cut : joinPaths(trimEnd(whole, met.location, start), cut);
};

const refuse = (style: CornerStyle, { x, y }: Point): never => {
  const place = `${x.toFixed(0)},${y.toFixed(0)}`;
  throw new StaywrightError('impossible', `the corner at ${place} cannot be ${style} with this allowance`, {
    hint: 'mitre it, or give the edge a smaller allowance',
  });
};

const straight = (from: Point, to: Point): Path => ({ segments: [line(from, to)] });

const ray = (from: Point, direction: Vector, length: number): Path =>
  straight(from, movePoint(from, scaled(direction, length)));

const nearestTo = <T extends { readonly point: Point }>(p: Point, places: readonly T[]): T | undefined =>
  places.toSorted((a, b) => distance(a.point, p) - distance(b.point, p))[0];

const trimmedAt = (path: Path, p: Point): Path => {
  const { location, point } = nearestPoint(path, p);
  return trimEnd(path, location, point);
};

/** Straight on from a path's end to a point that lies on its way; a last straight segment is lengthened instead. */
const goOnTo = (path: Path, to: Point): Path => {
  const last = path.segments.at(-1)!;
  if (last.kind !== 'line') return { segments: [...path.segments, line(last.end, to)] };
  return { segments: [...path.segments.slice(0, -1), line(last.start, to)] };
};

const goOn = (path: Path, length: number): Path =>
  goOnTo(path, movePoint(pathEnd(path), scaled(tangentOn(path.segments.at(-1)!, 1), length)));

/** The reflection about the line through a point in a direction. */
const mirrorAbout = (p: Point, direction: Vector): Matrix => {
  const angle = Math.atan2(direction.dy, direction.dx);
  const flip = compose(rotation(angle), compose(scaling(1, -1), rotation(-angle)));
  return compose(translation(p.x, p.y), compose(flip, translation(-p.x, -p.y)));
};
