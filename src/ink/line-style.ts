import type { Colour } from './colour.ts';

/** How a line is drawn, in millimetres; `grey` runs from 0, black, to 1, white, where no colour is given. */
export interface LineStyle {
  readonly width: number;
  /** Lengths of dash and space in turn; none for an unbroken line. */
  readonly dash?: readonly number[];
  readonly roundEnds?: boolean;
  readonly grey?: number;
  readonly colour?: Colour;
}

/** Lines are told apart by weight and dash, so that they stay so on a black and white printer and in any light. */
export const CUTTING: LineStyle = { width: 0.6 };
export const STITCHING: LineStyle = { width: 0.35, dash: [4, 1.6] };
export const LEVEL: LineStyle = { width: 0.2, dash: [8, 1.4, 0.8, 1.4] };
export const WAIST: LineStyle = { width: 0.35, dash: [8, 1.4, 0.8, 1.4] };
export const NOTCH: LineStyle = { width: 0.5 };
export const SLIT: LineStyle = { width: 0.5, dash: [2.5, 1.2, 0.6, 1.2] };
export const GRAIN: LineStyle = { width: 0.3 };
export const BONE: LineStyle = { width: 0.7, dash: [0, 1.8], roundEnds: true };

/** Marks of the pages themselves. */
export const TRIM: LineStyle = { width: 0.25, dash: [1.2, 1.2], grey: 0.25 };
export const GLUE: LineStyle = { width: 0.2, grey: 0.6 };
export const HAIR: LineStyle = { width: 0.2 };

/**
 * The dashes stretched or squeezed a little so that the line begins and ends with a whole dash: corners are always inked.
 * A line too short for two dashes is unbroken. `length` in millimetres.
 */
export const dashedToEnds = (style: LineStyle, length: number): LineStyle => {
  const [dash = 0, space = 0] = style.dash ?? [];
  const spaces = Math.round((length - dash) / (dash + space));
  if (!style.dash || spaces < 1) return { width: style.width };
  const factor = length / (spaces * (dash + space) + dash);
  return { ...style, dash: style.dash.map((part) => part * factor) };
};
