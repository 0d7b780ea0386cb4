import type { Point } from '../geometry/point.ts';
import type { LevelRef } from '../pattern/level-ref.ts';
import type { LineKind } from '../pattern/panel.ts';
import type { Pattern, Units } from '../pattern/pattern.ts';

/** The four corners that part top, bottom and the two seam edges, in the order of the outline. */
export const CORNER_NAMES = ['top-front', 'top-back', 'bottom-back', 'bottom-front'] as const;

export type CornerName = (typeof CORNER_NAMES)[number];

/** A corner given by hand; `at` is in millimetres of the drawing. */
export interface CornerAnswer {
  readonly panel: string;
  readonly corner: CornerName;
  readonly at: Point;
}

/**
 * Where a level lies: `down` millimetres below each panel's highest point, by panel name, and as it is drawn on a panel not named
 * there; or an offset from another level.
 */
export type LevelAnswer =
  | { readonly name: string; readonly down: Readonly<Record<string, number>> }
  | { readonly name: string; readonly from: LevelRef };

/** What a maker says about a plain drawing: lengths in millimetres. */
export interface LabelAnswers {
  /** Name of the pattern; the drawing's own where absent. */
  readonly name?: string;
  readonly line: LineKind;
  /** From centre front to centre back. */
  readonly panels: readonly string[];
  /** One more than the panels, from centre front to centre back. */
  readonly seams: readonly string[];
  readonly pieces: Pattern['pieces'];
  readonly units: Units;
  /** On which side of the drawing centre front lies. */
  readonly centreFront: 'left' | 'right';
  /** Panels that are drawn mirrored. */
  readonly flip: readonly string[];
  /** By panel: clockwise turn, in radians, that makes it hang the right way up. */
  readonly turn: Readonly<Record<string, number>>;
  readonly corners: readonly CornerAnswer[];
  readonly levels: readonly LevelAnswer[];
}
