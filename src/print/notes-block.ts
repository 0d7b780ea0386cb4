import type { Point } from '../geometry/point.ts';
import type { Ink } from '../ink/ink.ts';
import { wrapText } from '../ink/wrap-text.ts';

/** Something of known height that can be drawn anywhere. */
export interface NotesBlock {
  readonly height: number;
  readonly draw: (ink: Ink, at: Point, firstTilePage: number) => void;
}

/** Size of the em of the notes in millimetres, and from one line to the next in ems. */
export const TEXT = 3.7;
export const LEADING = 1.38;
/** White between blocks, in millimetres. */
export const GAP = 5;

/** A bold heading, then paragraphs; each with at most `most` lines. */
export const textBlock = (heading: string, paragraphs: readonly string[], width: number, most = 50): NotesBlock => {
  const lines = paragraphs.flatMap((paragraph) => wrapText(paragraph, TEXT, width, most));
  return {
    height: (lines.length + 1) * TEXT * LEADING,
    draw: (ink, { x, y }) => {
      ink.text(heading, { x, y: y + TEXT }, { size: TEXT * 1.1, weight: 'bold' });
      lines.forEach((line, index) => {
        ink.text(line, { x, y: y + TEXT + (index + 1) * TEXT * LEADING }, { size: TEXT });
      });
    },
  };
};

/** Height of blocks one under the other. */
export const heightOfAll = (blocks: readonly NotesBlock[]): number =>
  blocks.reduce((sum, { height }) => sum + height, GAP * Math.max(0, blocks.length - 1));

export const stacked = (blocks: readonly NotesBlock[]): NotesBlock => ({
  height: heightOfAll(blocks),
  draw: (ink, { x, y }, first) => {
    let top = y;
    for (const block of blocks) {
      block.draw(ink, { x, y: top }, first);
      top += block.height + GAP;
    }
  },
});

/** The second begins `by` millimetres to the right of the first. */
export const sideBySide = (left: NotesBlock, right: NotesBlock, by: number): NotesBlock => ({
  height: Math.max(left.height, right.height),
  draw: (ink, { x, y }, first) => {
    left.draw(ink, { x, y }, first);
    right.draw(ink, { x: x + by, y }, first);
  },
});
