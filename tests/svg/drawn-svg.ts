import { readSvg, type DrawingChoice } from '../../src/svg/read-svg.ts';
import type { Drawing } from '../../src/pattern/drawing.ts';
import type { Sheet } from '../../src/svg/sheet.ts';
import { StaywrightError } from '../../src/errors.ts';

/** A drawing of which one user unit is one millimetre. */
export const millimetres = (content: string, attributes = ''): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="1000mm" height="1000mm" viewBox="0 0 1000 1000" ${attributes}>${content}</svg>`;

export const drawingOf = (svg: string, choice: DrawingChoice = {}): Drawing => {
  const reading = readSvg(svg, 'drawn.svg', choice);
  if (reading.kind !== 'drawing') throw new Error('this was read as a sheet');
  return reading.drawing;
};

export const sheetOf = (svg: string): Sheet => {
  const reading = readSvg(svg, 'sheet.svg');
  if (reading.kind !== 'sheet') throw new Error('this was read as a drawing');
  return reading.sheet;
};

/** The error that a reading ends in, as the command line would print it; anything but a StaywrightError is thrown on. */
export const complaintOf = (read: () => unknown): string => {
  try {
    read();
  } catch (error) {
    if (!(error instanceof StaywrightError)) throw error;
    return `${error.code}: ${error.where}: ${error.message}`;
  }
  return 'none';
};
