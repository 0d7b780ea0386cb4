import type { Words } from '../ink/scene.ts';
import { wordsWidth } from '../ink/words-box.ts';
import { shortLength } from '../pattern/format-length.ts';
import type { Units } from '../pattern/pattern.ts';
import { SMALLEST_TYPE, TYPE } from './hand.ts';
import { centred } from './marks.ts';

/** From base line to base line: figures have no tails. */
const LEADING = 1.1;

/** Left free between a figure and the outline on either side. */
const AIR = 0.8;

/**
 * A width written on its level line, which runs from `fromX` to `toX` at `y` on the picture, `height` away from the next level: on the line where
 * there is room, else what is left over a sixteenth below it, in as large a type as fits.
 */
export const widthFigure = (
  mm: number,
  line: { readonly fromX: number; readonly toX: number; readonly y: number; readonly height: number },
  units: Units,
): Words[] => {
  const text = shortLength(mm, units, true);
  const x = (line.fromX + line.toX) / 2;
  const room = Math.abs(line.toX - line.fromX) - 2 * AIR;
  const size = [TYPE.figure, TYPE.small].find(
    (each) => wordsWidth(text, each) <= room && each * LEADING <= line.height,
  );
  if (size !== undefined) return [centred({ text, at: { x, y: line.y }, size, align: 'middle', backed: true })];
  const [, nearest = text, rest] = /^(.*\S) ([+-] \S+)$/.exec(text) ?? [];
  const longest = Math.max(...[nearest, rest ?? ''].map((part) => wordsWidth(part, 1)));
  const lines = rest === undefined ? [nearest] : [nearest, rest];
  const fitting = Math.max(SMALLEST_TYPE, Math.min(TYPE.small, room / longest, line.height / (lines.length * LEADING)));
  return lines.map((part, at) =>
    centred({
      text: part,
      at: { x, y: line.y + (at - (lines.length - 1) / 2) * fitting * LEADING },
      size: fitting,
      align: 'middle',
      backed: true,
    }),
  );
};
