/** What one profile across an outline says. */
export interface EdgeReading {
  /** From the place asked for to the middle of the line, or to the edge: pixels along the normal. */
  readonly offset: number;
  /** How wide an ink line is, in pixels. */
  readonly width?: number;
  /** How much light lies between the two levels, 0 to 1. */
  readonly contrast: number;
}

/** Less light than this between two levels is no edge: paper, dust and a scanner's noise reach it too. */
export const FAINTEST = 0.06;
