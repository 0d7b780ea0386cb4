import type { PictureKind } from './rough-outline.ts';

/** What a maker knows of a scan. */
export interface TraceAnswers {
  /** What it shows, where it should not be told by the picture. */
  readonly kind?: PictureKind;
  /** The true side of a printed square, in millimetres. */
  readonly testSquare?: number;
  readonly dpi?: number;
}
