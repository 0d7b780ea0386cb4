/** The two corners of a top or bottom edge, slid along the seams beside it. */

import { tangentOn } from '../../geometry/evaluate.ts';
import { pathEnd, type Path } from '../../geometry/path.ts';
import { reversePath } from '../../geometry/reverse-path.ts';
import { CRUMB } from '../../geometry/tolerance.ts';
import { scaled, vectorTo } from '../../geometry/vector.ts';
import { sidesOf } from '../../pattern/look-up.ts';
import type { Panel } from '../../pattern/panel.ts';
import { fanOfLines, type Fan, type Side } from './fan-of-lines.ts';
import { slideEnd } from './slide-end.ts';

/**
 * How far the two ends of a top or bottom edge move along the seams beside it: millimetres of seam length; positive makes the seam
 * longer (a top goes up, a bottom goes down).
 */
export interface EdgeEnds {
  readonly front: number;
  readonly back: number;
}

/** A seam beside the edge, drawn so that it runs out of the panel through the corner. */
interface SlidSeam {
  readonly before: Path;
  readonly after: Path;
  readonly side: Side;
}

export interface SlidCorners {
  readonly front: SlidSeam;
  readonly back: SlidSeam;
  /** The lines along which the edge moves: each corner's own way, or its seam's tangent where it stays. */
  readonly fan: Fan;
}

const slide = (before: Path, by: number): SlidSeam | undefined => {
  const after = slideEnd(before, by);
  if (!after) return undefined;
  const at = pathEnd(before);
  const still = Math.abs(by) < CRUMB;
  const along = still ? tangentOn(before.segments.at(-1)!, 1) : scaled(vectorTo(at, pathEnd(after)), 1 / by);
  return { before, after, side: { at, along } };
};

/** A top's front seam and a bottom's back seam run outwards as they are; the other two are turned round. */
export const outwards = (path: Path, which: 'top' | 'bottom', side: 'front' | 'back'): Path =>
  (which === 'top') === (side === 'front') ? path : reversePath(path);

/** Both seams with the ends that they have then, and the fan between; or the reason in words that follow the panel's name. */
export const slideCorners = (panel: Panel, which: 'top' | 'bottom', ends: EdgeEnds): SlidCorners | string => {
  const sides = sidesOf(panel);
  if (!sides) return 'has no top, bottom and two seam edges';
  const front = slide(outwards(sides.front.path, which, 'front'), ends.front);
  const back = slide(outwards(sides.back.path, which, 'back'), ends.back);
  if (!front || !back) return `would have nothing left of its seam ${(front ? sides.back : sides.front).name}`;
  return { front, back, fan: fanOfLines(front.side, back.side, which === 'top' ? 1 : -1) };
};
