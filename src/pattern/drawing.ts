import type { Path } from '../geometry/path.ts';

/** A closed shape of a plain drawing, in millimetres, clockwise on paper. */
export interface Outline {
  readonly id?: string;
  readonly path: Path;
  /** `file:line:column` of its element. */
  readonly where: string;
}

/** An open line of a plain drawing: perhaps a level, a notch or a grainline. */
export interface Stroke {
  readonly id?: string;
  /** Its own id, classes and `data-level`, then those of the groups round it, innermost first: what it may be called by. */
  readonly names: readonly string[];
  readonly path: Path;
  readonly where: string;
}

/** Artwork that is neither: text, pictures, filled marks. Cleaned markup already in drawing coordinates, with a point to place it by. */
export interface Artwork {
  readonly markup: string;
  readonly at: { readonly x: number; readonly y: number };
}

/** A plain drawing read in: everything in millimetres, transforms applied. */
export interface Drawing {
  readonly name: string;
  readonly outlines: readonly Outline[];
  readonly strokes: readonly Stroke[];
  readonly artwork: readonly Artwork[];
  readonly warnings: readonly string[];
}
