import { StaywrightError } from '../errors.ts';
import type { Drawing } from '../pattern/drawing.ts';
import { applyStyles } from './apply-styles.ts';
import { conflictError } from './conflict-error.ts';
import { MOST_BYTES } from './limits.ts';
import { parseXml } from './parse-xml.ts';
import { readDrawing } from './read-drawing.ts';
import { isSheet, readSheet } from './read-sheet.ts';
import type { Sheet } from './sheet.ts';
import { placeOf, type XmlDocument } from './xml-document.ts';

export type SvgReading =
  | { readonly kind: 'sheet'; readonly sheet: Sheet; readonly warnings: readonly string[] }
  | { readonly kind: 'drawing'; readonly drawing: Drawing };

/** How a plain drawing is read: what corrects a wrong scale, one of two at most, and which part is meant. */
export interface DrawingChoice {
  /** Factor on every size. */
  readonly scale?: number;
  /** True side in millimetres of a square that is drawn among the outlines. */
  readonly testSquare?: number;
  /** The id or label of the one group that is read. */
  readonly within?: string;
}

/**
 * Reads an SVG text: a sheet, or any other drawing with everything in millimetres. `file` is its name in messages.
 * Throws an `input` error with `file:line:column` for what cannot be read, a `usage` error for a choice that does not fit.
 */
export const readSvg = (text: string, file: string, choice: DrawingChoice = {}): SvgReading => {
  if (text.length > MOST_BYTES) throw new StaywrightError('input', `over ${MOST_BYTES} characters`, { where: file });
  const document = parseOrExplain(text, file);
  const { root } = document;
  if (root.local !== 'svg') {
    throw new StaywrightError('input', `this is <${root.name.slice(0, 40)}>, not <svg>`, {
      where: placeOf(document, root.offset),
    });
  }
  if (root.attributes['data-picture'] !== undefined) {
    throw new StaywrightError('input', 'is a picture that staywright drew, no sheet', {
      where: file,
      hint: 'give the sheet that it was drawn from',
    });
  }
  const { scale, testSquare, within } = choice;
  if (scale !== undefined && testSquare !== undefined) {
    throw new StaywrightError('usage', 'give --scale or --test-square, not both', { where: '--scale' });
  }
  if (!isSheet(document)) {
    applyStyles(root);
    return { kind: 'drawing', drawing: readDrawing(document, choice) };
  }
  if (scale !== undefined || testSquare !== undefined) {
    const where = scale === undefined ? '--test-square' : '--scale';
    throw new StaywrightError('usage', `${file} is a sheet, whose size is known`, { where, hint: 'leave it out' });
  }
  if (within !== undefined) {
    const hint = 'leave it out, or name a drawing';
    throw new StaywrightError('usage', `${file} is a sheet and is read whole`, { where: '--within', hint });
  }
  // What is left of git's marks once one of them was taken out may pass as text between elements.
  const conflict = conflictError(text, file);
  if (conflict !== undefined) throw conflict;
  const sheet = readSheet(document);
  const { part } = sheet;
  const warnings = part
    ? [`this is panel ${part.number} of ${part.of}; the whole pattern is read from its folder`]
    : [];
  return { kind: 'sheet', sheet, warnings };
};

/** Git's marks of two versions are no XML: where that is why a file cannot be read, it is said. */
export const parseOrExplain = (text: string, file: string): XmlDocument => {
  try {
    return parseXml(text, file);
  } catch (error) {
    throw (error instanceof StaywrightError ? conflictError(text, file) : undefined) ?? error;
  }
};
