/** Moving a path at right angles to itself by an amount that depends on the height: a parallel of varying width. */

import { pathBox } from '../../geometry/box.ts';
import { cornersOf } from '../../geometry/corners.ts';
import { curvatureOn, derivativeOn, pointOn, tangentOn } from '../../geometry/evaluate.ts';
import { meetAtCorner } from '../../geometry/extend.ts';
import { fitCubics } from '../../geometry/fit-cubics.ts';
import { joinPaths } from '../../geometry/join-paths.ts';
import { pathEnd, pathStart, type Path } from '../../geometry/path.ts';
import { between, movePoint, type Point } from '../../geometry/point.ts';
import { reversePath } from '../../geometry/reverse-path.ts';
import { line, type Segment } from '../../geometry/segment.ts';
import { REFIT_TOLERANCE } from '../../geometry/tolerance.ts';
import { endPathAt } from '../../geometry/trim-path.ts';
import { leftNormal, magnitude, plus, scaled, type Vector } from '../../geometry/vector.ts';
import type { AmountAlong } from './amount-along.ts';
import { isConstantOver, splitAtHeights } from './shift-path.ts';

/** Places on a segment at which folding is looked for: a fold between two of them would be under a thirtieth of the segment long. */
const SAMPLES = 32;

const squareAt = (segment: Segment, t: number, amount: AmountAlong): Point => {
  const p = pointOn(segment, t);
  return movePoint(p, scaled(leftNormal(tangentOn(segment, t)), amount.value(p.y)));
};

/** How fast the moved point goes on along the segment: not positive where the parallel turns back on itself. */
const paceAt = (segment: Segment, t: number, amount: AmountAlong): number =>
  1 + curvatureOn(segment, t) * amount.value(pointOn(segment, t).y);

const squareTravel = (segment: Segment, t: number, amount: AmountAlong): Vector => {
  const v = derivativeOn(segment, t);
  const y = pointOn(segment, t).y;
  const tangent = tangentOn(segment, t);
  const along = scaled(tangent, magnitude(v) * paceAt(segment, t, amount));
  return plus(along, scaled(leftNormal(tangent), amount.slope(y) * v.dy));
};

/** One segment moved, or undefined where it would turn back on itself. */
const movedSquare = (segment: Segment, amount: AmountAlong, tolerance: number): Segment[] | undefined => {
  const { minY, maxY } = pathBox({ segments: [segment] });
  const constant = isConstantOver(amount, minY, maxY);
  if (constant && amount.value((minY + maxY) / 2) === 0) return [segment];
  if (constant && segment.kind === 'line') return [line(squareAt(segment, 0, amount), squareAt(segment, 1, amount))];
  for (let i = 0; i <= SAMPLES; i += 1) {
    if (paceAt(segment, i / SAMPLES, amount) <= 0) return undefined;
  }
  const curve = {
    point: (t: number) => squareAt(segment, t, amount),
    derivative: (t: number) => squareTravel(segment, t, amount),
  };
  return fitCubics(curve, 0, 1, tolerance);
};

/** Two moved pieces of a smooth run, brought together in the middle of the hair by which they may miss each other. */
const joinSmoothly = (a: Path, b: Path): Path => {
  const middle = between(pathEnd(a), pathStart(b), 1 / 2);
  return joinPaths(endPathAt(a, middle), reversePath(endPathAt(reversePath(b), middle)));
};

/** A run without corners moved, or undefined where it would turn back on itself. */
const movedRun = (run: readonly Segment[], amount: AmountAlong, tolerance: number): Path | undefined => {
  let whole: Path | undefined;
  for (const segment of run) {
    const segments = movedSquare(segment, amount, tolerance);
    if (!segments) return undefined;
    whole = whole ? joinSmoothly(whole, { segments }) : { segments };
  }
  return whole;
};

/**
 * The path with every point moved to its left (outwards for an outline that runs clockwise) by the amount at its height, within
 * `tolerance`; its own corners meet again where the moved runs, trimmed or extended, cross. Undefined where it would turn back on
 * itself or a run between corners would vanish.
 */
export const shiftSquare = (path: Path, amount: AmountAlong, tolerance = REFIT_TOLERANCE): Path | undefined => {
  const segments = splitAtHeights(path, amount.breaks);
  const cuts = [0, ...cornersOf({ segments }).filter((corner) => corner > 0), segments.length];
  let whole: Path | undefined;
  for (const [index, to] of cuts.slice(1).entries()) {
    const run = movedRun(segments.slice(cuts[index], to), amount, tolerance);
    if (!run) return undefined;
    const met = whole && meetAtCorner(whole, run);
    if (whole && !met) return undefined;
    whole = met ? joinPaths(met.a, met.b) : run;
  }
  return whole;
};
