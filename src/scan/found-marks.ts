import type { Path } from '../geometry/path.ts';
import type { Line } from '../geometry/segment.ts';

/** What is drawn on one panel besides its outline; places in the picture. */
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
