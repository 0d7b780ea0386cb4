import type { LevelRef } from '../pattern/level-ref.ts';

/** Which part of a slashed panel keeps its grain. */
export const KEEPS = ['front', 'middle', 'back'] as const;

export type Keep = (typeof KEEPS)[number];

/** A slashing of one panel, as a maker asks for it; lengths in millimetres. */
export interface Slash {
  readonly panel: string;
  /** The edge that opens: `top`, `bottom` or one of the panel's seams. */
  readonly from: string;
  /** Where the slashes end and the parts turn: the name of the edge opposite, else a level. Absent: parallel, right through. */
  readonly hinge?: LevelRef;
  /** How many slashes, equally spaced; `at` says instead at which levels those from a seam lie. */
  readonly lines: number;
  readonly at: readonly LevelRef[];
  /** How far EACH slash opens on the edge it starts from; negative overlaps. */
  readonly spread: number;
  readonly keep: Keep;
}
