import type { Panel } from '../pattern/panel.ts';
import { drawArrow } from './draw-arrow.ts';
import { BONE, CUTTING, GRAIN, LEVEL, NOTCH, SLIT, STITCHING, TRIM, WAIST, type LineStyle } from '../ink/line-style.ts';
import { LEADING, TEXT, type NotesBlock } from './notes-block.ts';

type Entry = readonly [name: string, style: LineStyle, isDrawn: (panel: Panel) => boolean];

const LINES: readonly Entry[] = [
  ['cutting line', CUTTING, ({ line, cutting }) => line === 'cutting' || cutting !== undefined],
  ['stitching line', STITCHING, ({ line }) => line === 'stitching'],
  ['waist', WAIST, ({ levels }) => levels.some(({ name }) => name === 'waist')],
  ['another level', LEVEL, ({ levels }) => levels.some(({ name }) => name !== 'waist')],
  ['grain', GRAIN, ({ grain }) => grain !== undefined],
  ['bone', BONE, ({ bones }) => bones.length > 0],
  ['opening for a gusset', SLIT, ({ slits = [] }) => slits.length > 0],
  ['notch', NOTCH, ({ notches }) => notches.length > 0],
];

const COLUMN = 50;

/** Which line is which: those that these panels have, and where a page is cut if pages are joined. */
export const keyBlock = (panels: readonly Panel[], joined: boolean, width: number): NotesBlock => {
  const shown = LINES.filter(([, , isDrawn]) => panels.some(isDrawn)).map(([name, style]) => ({ name, style }));
  if (joined) shown.push({ name: 'where a page is cut', style: TRIM });
  const columns = Math.max(1, Math.floor(width / COLUMN));
  const line = TEXT * 1.55;
  return {
    height: (Math.ceil(shown.length / columns) - 1) * line + TEXT * LEADING,
    draw: (ink, { x, y }) => {
      shown.forEach(({ name, style }, index) => {
        const left = x + (index % columns) * (width / columns);
        const base = y + TEXT + Math.floor(index / columns) * line;
        const length = name === 'notch' ? 6 : 14;
        const [from, to] = [
          { x: left, y: base - 1.3 },
          { x: left + length, y: base - 1.3 },
        ];
        ink.strokeLine([from, to], style);
        if (style === GRAIN) drawArrow(ink, to, from);
        ink.text(name, { x: left + 16, y: base }, { size: TEXT });
      });
    },
  };
};
