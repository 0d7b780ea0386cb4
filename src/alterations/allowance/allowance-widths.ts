/**
 * Allowance is drawn more truly than the 0.02 mm that is promised, as adding it and taking it off again doubles what is wrong: together
 * they stay within 0.03 mm. Millimetres.
 */
export const ALLOWANCE_TOLERANCE = 0.004;

/** Widths of seam allowance in millimetres: one for every edge, and others for edges by name. */
export interface AllowanceWidths {
  readonly all?: number;
  readonly byEdge: Readonly<Record<string, number>>;
}
