import type { Words } from '../ink/scene.ts';
import { wordsWidth } from '../ink/words-box.ts';
import { wrapText } from '../ink/wrap-text.ts';
import { LEADING, MARGIN, TYPE } from './hand.ts';

/** Where a picture begins below its heading. */
export const HEADING_HEIGHT = MARGIN + TYPE.title + 2 * TYPE.figure * LEADING;

/** What the picture shows, and a line of facts below it. */
export const heading = (title: string, facts: readonly string[]): Words[] => {
  const y = MARGIN + TYPE.title * 0.8;
  return [
    { kind: 'words', text: title, at: { x: MARGIN, y }, size: TYPE.title, weight: 'bold' },
    {
      kind: 'words',
      text: facts.join(' · '),
      at: { x: MARGIN, y: y + TYPE.figure * LEADING * 1.2 },
      size: TYPE.figure,
    },
  ];
};

/** The right end of a heading. */
export const headingWidth = (title: string, facts: readonly string[]): number =>
  MARGIN + Math.max(wordsWidth(title, TYPE.title, 'bold'), wordsWidth(facts.join(' · '), TYPE.figure));

/** How the picture is read, in lines below it; `bottom` is how high the whole picture is then. */
export const footing = (
  text: string,
  { top, width }: { readonly top: number; readonly width: number },
): { readonly words: readonly Words[]; readonly bottom: number } => {
  const lines = wrapText(text, TYPE.small, width - 2 * MARGIN);
  const first = top + TYPE.small * 2;
  const words = lines.map((line, at): Words => {
    const y = first + at * TYPE.small * LEADING;
    return { kind: 'words', text: line, at: { x: MARGIN, y }, size: TYPE.small };
  });
  return { words, bottom: first + (lines.length - 1) * TYPE.small * LEADING + MARGIN };
};
