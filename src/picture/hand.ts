/**
 * The one hand in which every picture is drawn. Paper of at most an A3 sheet, so that it still reads at arm's length when it is printed on A4.
 * What is told by colour is told by weight and dash as well.
 */

import { INK, MADDER, PALE, PENCIL } from '../ink/colour.ts';
import type { LineStyle } from '../ink/line-style.ts';

/** The line that the picture is about. */
export const OUTLINE: LineStyle = { width: 0.6, colour: INK };
/** What it is compared with: a former version, a body. */
export const FORMER: LineStyle = { width: 0.35, dash: [2.4, 1.2], colour: PENCIL };
/** Where the two differ. */
export const CHANGED: LineStyle = { width: 0.9, colour: MADDER };
/** What is wished for. */
export const WANTED: LineStyle = { width: 0.5, dash: [5, 1.4], colour: INK };
export const CUTTING: LineStyle = { width: 0.25, colour: PENCIL };
export const WAIST: LineStyle = { width: 0.35, dash: [6, 1.2, 0.8, 1.2], colour: INK };
export const LEVEL: LineStyle = { width: 0.22, dash: [6, 1.2, 0.8, 1.2], colour: PENCIL };
export const MARK: LineStyle = { width: 0.45, colour: INK };
export const GRAIN: LineStyle = { width: 0.22, colour: PENCIL };
export const BONE: LineStyle = { width: 0.5, dash: [0, 1.4], roundEnds: true, colour: PENCIL };
export const HAIR: LineStyle = { width: 0.15, colour: PALE };

/** Sizes of type, of the em in millimetres. */
export const TYPE = { title: 6.5, name: 4.8, figure: 3.8, small: 3.2 } as const;

/** Nothing is set smaller, however narrow the panel. */
export const SMALLEST_TYPE = 1.8;

/** From base line to base line, as a share of the size. */
export const LEADING = 1.4;

/** White round every picture, in millimetres. */
export const MARGIN = 12;
