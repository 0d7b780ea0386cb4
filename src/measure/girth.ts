import { girthAt, type LevelGirth } from '../pattern/girth-at.ts';
import type { LevelRef } from '../pattern/level-ref.ts';
import type { Pattern } from '../pattern/pattern.ts';
import { refuseCutting } from '../pattern/refuse-cutting.ts';

/** Every level asked for, in that order. */
export interface GirthReport {
  readonly levels: readonly LevelGirth[];
}

/**
 * Length round the body at each level: the chords between the stitching edges of all panels, twice for pairs, in millimetres.
 * Exact up to the arithmetic of finding where a curve crosses a line.
 *
 * @throws input where panels still carry seam allowance or do not reach a level; usage for an unknown level.
 */
export const girth = (pattern: Pattern, levels: readonly LevelRef[]): GirthReport => {
  refuseCutting(pattern);
  return { levels: levels.map((level) => girthAt(pattern, level)) };
};
