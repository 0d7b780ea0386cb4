import type { Path } from './path.ts';
import { offsetRuns, type OffsetRun } from './offset-runs.ts';
import { OFFSET_TOLERANCE } from './tolerance.ts';

/**
 * The parallel of a closed outline, given as runs end to end, each with its own distance in mm: positive is to the left of the
 * direction of travel, so outwards on an outline that runs clockwise on paper. One result a run, each starting exactly where the one
 * before it ends. Corners (every break of the tangent, also inside a run) are mitred outward and trimmed at the true crossing inward;
 * loops are cut off where the parallel crosses itself. Segments may vanish between their neighbours; a whole run may not.
 * Within `tolerance` of the true parallel. Throws `impossible` where nothing, several parts, or no closed line would be left
 * (the cause holds `{ run }` where one run vanishes, `{ tooWide: true }` where the outline is too small for the width).
 */
export const offsetOutline = (runs: readonly OffsetRun[], tolerance: number = OFFSET_TOLERANCE): readonly Path[] =>
  offsetRuns(runs, true, tolerance);
