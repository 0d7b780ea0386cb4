import type { LevelRef } from '../pattern/level-ref.ts';

/** Where a gusset is set in. */
export type GussetPlace =
  /** A seam left open from a level down, or for a length up from its lower end. */
  | { readonly kind: 'seam'; readonly seam: string; readonly below?: LevelRef; readonly length?: number }
  /** A panel slit straight down from a level, at a part of its chord there from front to back. */
  | {
      readonly kind: 'slit';
      readonly panel: string;
      readonly level: LevelRef;
      readonly fraction: number;
      readonly length?: number;
    };

export const GUSSET_SIDES = ['straight', 'curved'] as const;

/** A gusset as a maker asks for it. */
export interface GussetWanted {
  readonly place: GussetPlace;
  /** Between its lower corners, in millimetres. */
  readonly width: number;
  readonly sides: (typeof GUSSET_SIDES)[number];
  readonly name?: string;
}
