import type { Point } from '../geometry/point.ts';

/** What a picture shows: outlines printed on paper, or pieces cut out of paper on a ground of another lightness. */
export type PictureKind = 'line' | 'cutout';

/**
 * What lies along an outline: an `ink` line, whose middle is the truth, or the edge of a piece that is `lighter` or `darker`
 * than the ground, whose half level is.
 */
export type OutlineEdge = 'ink' | 'lighter' | 'darker';

/** A closed outline found at working size, before it is measured. */
export interface RoughOutline {
  readonly edge: OutlineEdge;
  /** In picture places, closed (the first is not repeated), clockwise on the page, within about 0.3 mm of the truth away from corners. */
  readonly points: readonly Point[];
  /** The number of the smallest other outline that holds this one. */
  readonly within?: number;
}
