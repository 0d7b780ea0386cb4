import { StaywrightError } from '../errors.ts';
import type { TileGrid } from './page-layout.ts';
import type { Paper } from './paper-size.ts';

/** The test squares have to fit. */
const LEAST_FRAME = 52;

/** A page must show at least this much that is new, or a pattern would take pages without end. */
const LEAST_STEP = 30;

/**
 * How a paper is cut up, in millimetres: the frame is the page less its margins, and each page repeats `overlap` of the one before.
 * Throws a usage error where margin and overlap leave under 30 mm of the page, or no room for a test square.
 */
export const tileGrid = (paper: Paper, landscape: boolean, margin: number, overlap: number): TileGrid => {
  const pageWidth = landscape ? paper.height : paper.width;
  const pageHeight = landscape ? paper.width : paper.height;
  const frameWidth = pageWidth - 2 * margin;
  const frameHeight = pageHeight - 2 * margin;
  const stepX = frameWidth - overlap;
  const stepY = frameHeight - overlap;
  if (!(margin >= 0) || !(overlap >= 0)) {
    throw new StaywrightError('usage', 'a margin or an overlap cannot be negative', { hint: 'usual: 10mm each' });
  }
  if (Math.min(stepX, stepY) < LEAST_STEP || Math.min(frameWidth, frameHeight) < LEAST_FRAME) {
    throw new StaywrightError('usage', `margin ${margin} mm and overlap ${overlap} mm leave no room on ${paper.name}`, {
      where: '--margin, --overlap',
      hint: 'use smaller ones (usual: 10mm each) or larger paper',
    });
  }
  return { pageWidth, pageHeight, margin, overlap, frameWidth, frameHeight, stepX, stepY };
};

/** How many pages side by side show `length` millimetres: at least one. */
export const tilesAlong = (length: number, frame: number, overlap: number): number =>
  Math.max(1, Math.ceil((length - overlap) / (frame - overlap)));
