import type { AmountAt, Where } from './seams/amount-along.ts';

/** How much a seam moves; lengths in millimetres. */
export type MoveBy =
  /** Each stitching line by this much; negative is the opposite direction. */
  | { readonly kind: 'amount'; readonly amount: number }
  /** This much round the body in all, shared equally over the lines or by the parts of each seam. */
  | { readonly kind: 'girth'; readonly girth: number; readonly share?: Readonly<Record<string, number>> }
  /** Each stitching line by an amount of its own at each level, blended between. */
  | { readonly kind: 'at'; readonly at: readonly AmountAt[] };

/** A taking in or letting out, as a maker asks for it. */
export interface MoveSeams {
  readonly seams: readonly string[];
  readonly direction: 'in' | 'out';
  readonly by: MoveBy;
  readonly where: Where;
  /** Amounts are measured at right angles to the seam instead of along the level. */
  readonly square: boolean;
}
