import type { Path } from '../geometry/path.ts';
import { simplifyPath } from '../geometry/simplify-path.ts';
import { REFIT_TOLERANCE } from '../geometry/tolerance.ts';

/**
 * Where merging at REFIT_TOLERANCE leaves too many nodes it is eased up to this many times: to 8 on any seam that runs down steadily,
 * so that amounts stay within 0.01 mm; beyond only where a seam turns back upwards and passes each level three times. (Such a seam
 * moved square, by an amount that changes with the height, may still keep a few more nodes than asked.)
 */
const EASINGS = [1, 2, 4, 8, 16, 32, 64] as const;

const nodesOf = (path: Path): number => path.segments.length + 1;

/** The changed path of an edge with as few nodes as the tolerance allows, where it has more than it had `before`. */
export const tidied = (moved: Path, before: Path): Path => {
  const most = 2 * nodesOf(before) + 4;
  if (moved.segments.length <= before.segments.length) return moved;
  let tidy = moved;
  for (const easing of EASINGS) {
    tidy = simplifyPath(moved, REFIT_TOLERANCE * easing);
    if (nodesOf(tidy) <= most) break;
  }
  return tidy;
};
