/** Widths of seam allowance in millimetres: one for every edge, and others for edges by name. */
export interface AllowanceWidths {
  readonly all?: number;
  readonly byEdge: Readonly<Record<string, number>>;
}
