import type { Path } from '../geometry/path.ts';
import type { Point } from '../geometry/point.ts';

/** The net line that is sewn, or the line that is cut: stitching line plus allowance. */
export type LineKind = 'cutting' | 'stitching';

/**
 * How the allowance ends where a top or bottom edge meets a seam. `mitre`: both cutting lines run on to where they meet.
 * `square`: the seam's allowance is cut off at right angles to the seam. `folded`: beyond the edge the seam's cutting line is
 * mirrored about the stitching line, so that the allowance turned back lies flat.
 */
export const CORNER_STYLES = ['mitre', 'square', 'folded'] as const;

export type CornerStyle = (typeof CORNER_STYLES)[number];

/** A named run of a panel's outline: `top`, `bottom`, or the name of the seam it belongs to. It may hold corners of its own. */
export interface Edge {
  readonly name: string;
  readonly path: Path;
  /** Width of the allowance added outside this stitching line; absent where none was added. */
  readonly allowance?: number;
  /** How the allowance is cut at the two ends of a top or bottom edge (`data-corners` in a sheet); absent is `mitre`. */
  readonly corners?: CornerStyle;
  /** The path's characters as read from a sheet; dropped by whoever changes `path`. */
  readonly text?: string;
}

/** A named horizontal line from edge to edge. */
export interface Level {
  readonly name: string;
  readonly y: number;
  readonly fromX: number;
  readonly toX: number;
}

/** A mark across an edge, drawn from its point on the edge inwards. */
export interface Notch {
  readonly edge: string;
  readonly at: Point;
  readonly inner: Point;
}

/**
 * An opening that a gusset is set into, from its upper end, the reinforcement point, down to the bottom edge. Either a seam left open
 * from that point on, with `edge` the panel's own edge of that seam, or a slit straight down the panel.
 */
export interface Slit {
  /** The panel that fills it. */
  readonly gusset: string;
  readonly edge?: string;
  /** The reinforcement point. */
  readonly at: Point;
  /** Where a slit ends on the bottom edge; on a seam, where the short bar drawn across it ends, inwards as a notch. */
  readonly to: Point;
}

/** What makes a panel a gusset: three edges, from its apex down the side to the back, the bottom, the side to the front. */
interface Gusset {
  /** How high the waist of the panels that it is set into lies, in the gusset's own coordinates: above its apex it is a negative number. */
  readonly waistY: number;
}

/** The grainline; its direction is along the cloth's warp. */
export interface Grain {
  readonly from: Point;
  readonly to: Point;
}

/** The wearer's left or right. */
export const SIDES = ['left', 'right'] as const;

export type Side = (typeof SIDES)[number];

/**
 * One piece, in its own coordinates: millimetres, y down, grain vertical, centre front to the left.
 * A panel of the wearer's right is held as its mirror image, so that it too has centre front to the left: only where it is drawn,
 * on a sheet or on paper, does it lie the other way round (`mirrorPanel`).
 * The edges form a closed outline that runs clockwise on paper, each ending exactly where the next begins:
 * top, seam to the back, bottom, seam to the front. (A panel stripped before it was labelled may have any edges.)
 */
export interface Panel {
  readonly name: string;
  readonly line: LineKind;
  /** Where left and right are separate panels: which of the two this is. */
  readonly side?: Side;
  /** Where this panel is a gusset. */
  readonly gusset?: Gusset;
  readonly edges: readonly Edge[];
  /** From the highest down. */
  readonly levels: readonly Level[];
  readonly notches: readonly Notch[];
  /** Where gussets are set in; absent where there are none. */
  readonly slits?: readonly Slit[];
  readonly grain?: Grain;
  readonly bones: readonly Path[];
  /** The cutting line round a stitching panel to which allowance was added: closed, clockwise. */
  readonly cutting?: Path;
  /** Other artwork, as cleaned SVG markup in the panel's coordinates. */
  readonly art?: string;
}
