/** What comparing two versions finds: plain figures in millimetres and radians, of everything that both have. */

import type { Point } from '../../geometry/point.ts';
import type { CornerStyle, LineKind, Side } from '../../pattern/panel.ts';

/** Less than this is no change that anyone could draw, cut or sew: a line that was fitted again moves by less. Millimetres. */
export const UNCHANGED = 0.01;

/** Less than this is no change of an angle. Radians: 0.1 degrees. */
export const SAME_ANGLE = Math.PI / 1800;

/** One figure in both versions; undefined in the one that has none. */
export interface Both<Value = number> {
  readonly before: Value | undefined;
  readonly after: Value | undefined;
}

/**
 * `same`: every point of it is, at 3 decimals. `redrawn`: other curves, nowhere farther apart than 0.01 mm. `ends`: along the same line,
 * but longer or shorter at an end. `moved`: the line itself lies elsewhere.
 */
export type EdgeKind = 'same' | 'redrawn' | 'ends' | 'moved';

/** One end of an edge; `at` is the edge that it meets there. */
export interface EndMove {
  readonly at: string;
  /** How far the corner went up, negative down. */
  readonly up: number;
  /** How far it went across, away from the middle of the panel; negative towards it. */
  readonly outwards: number;
  /** How much longer the edge is at this end, along itself; negative where it is shorter. */
  readonly longer: number;
}

export interface EdgeComparison {
  readonly edge: string;
  /** Where on the panel it is; `other` on one that was never labelled. */
  readonly place: 'front' | 'back' | 'top' | 'bottom' | 'other';
  readonly kind: EdgeKind;
  /** The greatest distance between the two lines where they run beside each other, with the two points, the after one as laid on before. */
  readonly apart: number;
  readonly from: Point;
  readonly to: Point;
  /** How high above the waist of before that is; undefined where there is no waist. */
  readonly height: number | undefined;
  /** The edge met at the end near which that is; undefined where it is not within 3 mm of an end. */
  readonly near: string | undefined;
  /** The greatest move with its direction: of a seam outwards (larger), of a top or bottom edge upwards. */
  readonly most: number;
  /** Of a seam: how far it moved outwards along each level, as the level lies in each version; their sum over a panel is its change of width. */
  readonly levels: readonly { readonly level: string; readonly outwards: number | undefined }[];
  /** In the order of the outline: of a top edge, the front end and then the back end. */
  readonly ends: readonly EndMove[];
  readonly length: { readonly before: number; readonly after: number };
  readonly allowance: Both;
  readonly corners: Both<CornerStyle>;
}

/** Where a level lies, and how wide the panel is there. */
export interface LevelComparison {
  readonly level: string;
  /** Above the waist line on which both are laid; negative below it. */
  readonly height: Both;
  readonly width: Both;
}

/** A notch by its place along the edge: above the waist on a seam that crosses it, else from the edge's start. */
export interface NotchComparison extends Both {
  readonly edge: string;
  readonly from: 'waist' | 'start';
}

/** Where a gusset is set in: how high its reinforcement point lies, along an edge from where that crosses the waist, and how long the opening is. */
export interface SlitComparison {
  readonly gusset: string;
  readonly edge: string | undefined;
  readonly height: Both;
  readonly length: Both;
  /** How far the reinforcement point moved; 0 where only one version has the opening. */
  readonly apart: number;
}

export interface PanelComparison {
  readonly panel: string;
  readonly side?: Side;
  /** By how much the after version was moved to lie on the before one. */
  readonly laid: { readonly dx: number; readonly dy: number };
  readonly edges: readonly EdgeComparison[];
  readonly levels: readonly LevelComparison[];
  /** The inside angles, each where `edge` ends and `next` begins. */
  readonly corners: readonly {
    readonly edge: string;
    readonly next: string;
    readonly before: number;
    readonly after: number;
  }[];
  readonly notches: readonly NotchComparison[];
  /** How far the grain leans from upright, positive with its upper end to the right as the panel is drawn. */
  readonly grain: Both;
  readonly bones: Both;
  /** The greatest distance between bones of the same number; 0 where their numbers differ. */
  readonly bonesApart: number;
  readonly slits: readonly SlitComparison[];
}

/** One edge of a seam, measured along itself; above and below are undefined where it does not cross the waist. */
export interface SeamEdgeLengths {
  readonly panel: string;
  readonly whole: Both;
  readonly above: Both;
  readonly below: Both;
}

export interface SeamComparison {
  readonly seam: string;
  readonly side?: Side;
  readonly edges: readonly SeamEdgeLengths[];
  /** By how much the first edge is longer than the second; none for a seam of one edge. */
  readonly differences: readonly (Both & { readonly part: 'above' | 'below' | 'whole' })[];
}

export interface GirthComparison extends Both {
  readonly level: string;
}

export interface Comparison {
  /** Versions of one pattern lie on each other in their own coordinates; others are laid on each other by their waists. */
  readonly sharesFrame: boolean;
  readonly line: LineKind;
  /** Panels that both have, in the order of the after version. */
  readonly panels: readonly PanelComparison[];
  readonly gussets: { readonly onlyBefore: readonly string[]; readonly onlyAfter: readonly string[] };
  readonly seams: readonly SeamComparison[];
  /** Round the body at each level, or round the half of one side where only that was compared. */
  readonly girths: readonly GirthComparison[];
  readonly half?: Side;
  /** True where anything but the drawing of a line within 0.01 mm is not the same. */
  readonly differs: boolean;
}

/** Whether a figure changed: by more than 0.01 mm, or because only one version has it. */
export const isChanged = ({ before, after }: Both): boolean =>
  before === undefined || after === undefined ? before !== after : Math.abs(after - before) > UNCHANGED;

/** By how much a figure grew; undefined where one version has none. */
export const changeOf = ({ before, after }: Both): number | undefined =>
  before === undefined || after === undefined ? undefined : after - before;
