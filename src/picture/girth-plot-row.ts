import type { Side } from '../pattern/panel.ts';

/** One level of a girth plot; all in millimetres, girths round the body, or of one half where only that was looked at. */
export interface GirthPlotRow {
  readonly level: string;
  /** How far it lies below the waist; negative above it. */
  readonly y: number;
  readonly body: number;
  /** What the pattern should measure. */
  readonly wanted: number;
  readonly pattern: number;
  /** What to add to the pattern, negative to take away. */
  readonly needs: number;
  /** The opening that the lacing leaves; negative where the edges would overlap. */
  readonly gap: number;
  readonly gapWanted: number;
  /** From the centre back to the laced edge of each side that is looked at; negative where the edge would pass it. */
  readonly fromCentre: Readonly<Partial<Record<Side, number>>>;
}

/** How far down a laced edge runs, below the waist. */
export interface BackSpan {
  readonly top: number;
  readonly bottom: number;
}
