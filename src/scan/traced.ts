import type { Matrix } from '../geometry/matrix.ts';
import type { Path } from '../geometry/path.ts';
import type { Point } from '../geometry/point.ts';
import type { Finding } from '../pattern/finding.ts';
import type { FoundMarks } from './found-marks.ts';
import type { PictureKind } from './rough-outline.ts';

/** How the size of a scan became known. */
export interface ScanScale {
  /** A square of known side, what was typed, or what the file says of itself. */
  readonly how: 'test-square' | 'dpi' | 'file';
  /** The true side of the square, in millimetres. */
  readonly side?: number;
  /** From places in the picture to millimetres. */
  readonly toMm: Matrix;
  /** Pixels to the inch along the rows and down the columns. */
  readonly dpi: { readonly x: number; readonly y: number };
  /** How the paper lay, clockwise, and how far its rows and columns are from square; radians. */
  readonly turn: number;
  readonly shear: number;
  /** How far the corners of the square stay from where they should be, in millimetres. */
  readonly misfit?: number;
  /** The corners of the square where they were measured, clockwise, in the picture. */
  readonly corners?: readonly Point[];
  /** By how much 100 mm may be wrong, in millimetres; none is known for what was typed or written in the file. */
  readonly doubt?: number;
}

/** One panel in true millimetres, y downwards. */
export interface TracedPanel {
  /** Closed, clockwise on paper. */
  readonly outline: Path;
  /** Other closed lines that run round within it: a second size, or the stitching line. */
  readonly within: readonly Path[];
  readonly marks: FoundMarks;
  readonly corners: readonly Point[];
  /** Those of which a side cannot be seen, in places of the picture. */
  readonly unseen: readonly Point[];
  /** How far the measured places lie from the outline, root mean square, and how much of the outline had to be bridged; millimetres. */
  readonly spread: number;
  readonly bridged: number;
}

/** What was found in a scan. */
export interface Traced {
  readonly kind: PictureKind;
  readonly scale: ScanScale;
  /** The corners of the test square, in millimetres. */
  readonly square?: readonly Point[];
  /** From left to right. */
  readonly panels: readonly TracedPanel[];
  readonly findings: readonly Finding[];
}
