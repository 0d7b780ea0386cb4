import { isClosed, type Path } from './path.ts';
import { offsetRuns } from './offset-runs.ts';
import { OFFSET_TOLERANCE } from './tolerance.ts';

/**
 * The parallel of a path at `distance` mm, positive to the left of its direction of travel. Corners and loops as in `offsetOutline`;
 * an open path stays open, from the parallel of its first point to that of its last. Within `tolerance` of the true parallel.
 * Throws `impossible` where no single line would be left.
 */
export const offsetPath = (path: Path, distance: number, tolerance: number = OFFSET_TOLERANCE): Path =>
  offsetRuns([{ path, distance }], isClosed(path), tolerance)[0]!;
