import type { Picture } from '../picture.ts';
import type { OutlineEdge } from '../rough-outline.ts';
import type { EdgeReading } from './edge-reading.ts';
import { besideBorder, borderReader } from './read-border.ts';
import { besideInk, inkReader } from './read-ink.ts';
import { profileSampler } from './sample-profile.ts';

/** How wide a line may be while nothing is known of it, in millimetres. */
const LINE_WIDTH = 0.8;

/**
 * A function that reads the outline near (x, y) along the unit normal, which points outwards: for many readings of one kind, as nothing
 * but the answer is allocated for each. `lineWidth`, in pixels, is how wide the line is as far as known.
 */
export const edgeReader = (
  picture: Picture,
  edge: OutlineEdge,
  pxPerMm: number,
  reach: number,
  lineWidth: number = LINE_WIDTH * pxPerMm,
): ((x: number, y: number, nx: number, ny: number) => EdgeReading | undefined) => {
  const half = reach + (edge === 'ink' ? lineWidth / 2 + besideInk(pxPerMm) : besideBorder(pxPerMm));
  const sample = profileSampler(picture, pxPerMm, half);
  const read = edge === 'ink' ? inkReader(pxPerMm, reach) : borderReader(edge, pxPerMm, reach);
  return (x, y, nx, ny) =>
    x < 0 || y < 0 || x > picture.width || y > picture.height ? undefined : read(sample(x, y, nx, ny));
};
