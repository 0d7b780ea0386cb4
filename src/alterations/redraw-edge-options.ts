/** How much the edge is raised at a seam: millimetres along the seam, positive upwards, negative downwards. */
interface AmountAtSeam {
  readonly seam: string;
  readonly amount: number;
}

/** A new top or bottom line, as a maker asks for it. */
export interface RedrawEdge {
  readonly edge: 'top' | 'bottom';
  readonly at: readonly AmountAtSeam[];
}
