import type { Words } from '../ink/scene.ts';
import { wordsWidth } from '../ink/words-box.ts';
import { shortLength } from '../pattern/format-length.ts';
import type { Units } from '../pattern/pattern.ts';
import { TYPE } from './hand.ts';
import { centred } from './marks.ts';

/** Left free between a figure and the outline on either side, and the smallest type. */
const [AIR, SMALLEST] = [0.8, 1.8] as const;

/**
 * A width written on its level line, which runs from `fromX` to `toX` at `y` on the picture: on the line where there is room, else what is left
 * over a sixteenth below it, in as large a type as fits.
 */
export const widthFigure = (
  mm: number,
  line: { readonly fromX: number; readonly toX: number; readonly y: number },
  units: Units,
): Words[] => {
  const text = shortLength(mm, units, true);
  const x = (line.fromX + line.toX) / 2;
  const room = Math.abs(line.toX - line.fromX) - 2 * AIR;
  const size = [TYPE.figure, TYPE.small].find((each) => wordsWidth(text, each) <= room);
  if (size !== undefined) return [centred({ text, at: { x, y: line.y }, size, align: 'middle', backed: true })];
  const [, nearest = text, rest] = /^(.*\S) ([+-]\S+)$/.exec(text) ?? [];
  const longest = Math.max(...[nearest, rest ?? ''].map((part) => wordsWidth(part, 1)));
  const fitting = Math.max(SMALLEST, Math.min(TYPE.small, room / longest));
  const lines = rest === undefined ? [nearest] : [nearest, rest];
  return lines.map((part, at) =>
    centred({
      text: part,
      at: { x, y: line.y + (at - (lines.length - 1) / 2) * fitting * 1.1 },
      size: fitting,
      align: 'middle',
      backed: true,
    }),
  );
};
