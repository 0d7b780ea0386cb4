import type { OutlineEdge } from '../rough-outline.ts';
import type { EdgeReading } from './edge-reading.ts';
import { besideBorder, borderReader } from './read-border.ts';
import { besideInk, inkReader } from './read-ink.ts';
import type { Profile } from './sample-profile.ts';

/** How wide a line may be while nothing is known of it, in millimetres. */
const LINE_WIDTH = 0.8;

export interface ProfileReader {
  /** Pixels to both sides of a place that its profile must show. */
  readonly half: number;
  /** Nothing where there is no clear line or edge in reach, or more than one. */
  readonly read: (profile: Profile) => EdgeReading | undefined;
}

/** Reads outlines of one kind within `reach` pixels; `lineWidth`, in pixels, is how wide the line is as far as known. */
export const profileReader = (
  edge: OutlineEdge,
  pxPerMm: number,
  reach: number,
  lineWidth: number = LINE_WIDTH * pxPerMm,
): ProfileReader =>
  edge === 'ink'
    ? { half: reach + lineWidth / 2 + besideInk(pxPerMm), read: inkReader(pxPerMm, reach) }
    : { half: reach + besideBorder(pxPerMm), read: borderReader(edge, pxPerMm, reach) };
