/** The corner where a redrawn top or bottom line meets a seam: what its angle becomes, and which slope would give it another. */

import { tangentOn } from '../../geometry/evaluate.ts';
import { pathEnd, type Path } from '../../geometry/path.ts';
import { cross, dot, plus, scaled, type Vector } from '../../geometry/vector.ts';
import type { SlidCorners } from './slide-corners.ts';

export interface LineCorner {
  /** By how much the line turns outwards against the seam (radians), as the corner slides and the amount has the slope asked for. */
  readonly turned: number;
  /** The slope of the amount, for each unit of share, with which the line turns outwards by so much more. */
  readonly slopeTurned: (by: number) => number;
}

/** Nearer to its seam's own direction than 10 degrees a line is not turned: the slope would grow without bound. */
const STEEPEST = (Math.PI * 4) / 9;

const outwardTangent = (seam: Path): Vector => tangentOn(seam.segments.at(-1)!, 1);

/**
 * One end of the line on one panel: `edge` from its front end to its back end, `amount` outwards there, `slope` the change of the
 * amount for each unit of share. Undefined where the line lies along its seam.
 */
export const lineCorner = (
  { fan, ...seams }: SlidCorners,
  which: 'top' | 'bottom',
  end: 'front' | 'back',
  edge: Path,
  amount: number,
  slope: number,
): LineCorner | undefined => {
  const forward = end === 'front' ? 1 : -1;
  const inwards = (tangent: Vector): Vector =>
    scaled({ dx: -tangent.dy, dy: tangent.dx }, which === 'top' ? forward : -forward);
  const rise = (line: Vector, tangent: Vector): number => Math.atan2(dot(line, tangent), dot(line, inwards(tangent)));
  const { before, after } = seams[end];
  const [was, is] = [outwardTangent(before), outwardTangent(after)];
  const along = end === 'front' ? tangentOn(edge.segments[0]!, 0) : tangentOn(edge.segments.at(-1)!, 1);
  const share = fan.shareAt(pathEnd(before));
  const rate = share ? dot(share.gradient, along) : 0;
  if (rate <= 0) return undefined;
  const way = fan.along(end === 'front' ? 0 : 1);
  const still = plus(scaled(along, 1 / rate), scaled(fan.opening, amount));
  const angle = rise(scaled(plus(still, scaled(way, slope)), forward), is);
  return {
    turned: angle - rise(scaled(along, forward), was),
    slopeTurned: (by) => {
      const wanted = angle + by;
      if (by === 0 || Math.abs(wanted) > STEEPEST) return slope;
      const line = plus(scaled(inwards(is), Math.cos(wanted)), scaled(is, Math.sin(wanted)));
      return -cross(still, line) / cross(way, line);
    },
  };
};
