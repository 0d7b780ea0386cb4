import type { Matrix } from '../geometry/matrix.ts';
import type { Path } from '../geometry/path.ts';
import type { Line } from '../geometry/segment.ts';
import { transformPath } from '../geometry/transform-path.ts';

/** What is drawn on one panel besides its outline, in places of the picture or in millimetres. */
export interface FoundMarks {
  /** From the outline inwards. */
  readonly notches: readonly Line[];
  /** Straight lines with an arrow at one end or both, the arrow left out; from top to bottom. */
  readonly grain: readonly Line[];
  /** Straight lines right across, from outline to outline, from the left; in order from the top. */
  readonly across: readonly Line[];
  /** Everything else, as the middles of its strokes. */
  readonly art: readonly Path[];
}

/** The same marks elsewhere: from the picture to millimetres, or back. */
export const marksThrough = ({ notches, grain, across, art }: FoundMarks, matrix: Matrix): FoundMarks => {
  const path = (one: Path): Path => transformPath(one, matrix);
  const line = (one: Line): Line => path({ segments: [one] }).segments[0] as Line;
  return { notches: notches.map(line), grain: grain.map(line), across: across.map(line), art: art.map(path) };
};
