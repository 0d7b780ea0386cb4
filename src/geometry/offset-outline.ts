import { StaywrightError } from '../errors.ts';
import type { Path } from './path.ts';
import { offsetRuns, type OffsetRun } from './offset-runs.ts';
import { OFFSET_TOLERANCE } from './tolerance.ts';

/**
 * Parts of the tolerance by which a width is nudged where it fails as it stands. The very width that was once added makes whole
 * segments, the mitres' arms, vanish into one point, where rounding decides; a hair beside it nothing is in doubt.
 */
const NUDGES = [0.25, -0.25, 0.4, -0.4];

/**
 * The parallel of a closed outline, given as runs end to end, each with its own distance in mm: positive is to the left of the
 * direction of travel, so outwards on an outline that runs clockwise on paper. One result a run, each starting exactly where the one
 * before it ends. Corners (every break of the tangent, also inside a run) are mitred outward and trimmed at the true crossing inward;
 * loops are cut off where the parallel crosses itself. Segments may vanish between their neighbours; a whole run may not.
 * Within `tolerance` of the true parallel. Throws `impossible` where nothing, several parts, or no closed line would be left
 * (the cause holds `{ run }` where one run vanishes).
 */
export const offsetOutline = (runs: readonly OffsetRun[], tolerance: number = OFFSET_TOLERANCE): readonly Path[] => {
  try {
    return offsetRuns(runs, true, tolerance);
  } catch (error) {
    if (!isImpossible(error)) throw error;
    for (const nudge of NUDGES) {
      const nudged = nudgedOffset(runs, nudge * tolerance, tolerance);
      if (nudged !== undefined) return nudged;
    }
    throw error;
  }
};

const nudgedOffset = (runs: readonly OffsetRun[], by: number, tolerance: number): readonly Path[] | undefined => {
  try {
    const moved = runs.map(({ path, distance }) => ({ path, distance: distance === 0 ? 0 : distance + by }));
    return offsetRuns(moved, true, tolerance);
  } catch (error) {
    if (isImpossible(error)) return undefined;
    throw error;
  }
};

const isImpossible = (error: unknown): boolean => error instanceof StaywrightError && error.code === 'impossible';
