import { splitSides as split, type SplitSides } from '../alterations/split-sides.ts';
import { defineCommand, type Report } from '../cli/command.ts';
import { countOf } from '../cli/count-of.ts';
import type { Pattern } from '../pattern/pattern.ts';
import { alterSheet } from './alter-sheet.ts';

export const splitSides = defineCommand({
  name: 'split-sides',
  summary: 'pairs to left and right panels, for an uneven body',
  kind: 'sheet',
  drawsOverlay: true,
  takesSide: false,
  examples: [
    { says: 'every panel twice, left and right', line: 'staywright split-sides net.svg -o both.svg' },
    {
      says: 'then the left side seam alone, let out below the waist',
      line: 'staywright split-sides net.svg |\n  staywright let-out --side left --seam side --below waist --amount 6mm',
    },
  ],
  notes: [
    "A panel called side becomes side-left, as it was drawn, and side-right, its mirror image. Left and right are the wearer's. Seams and levels keep their names; every command then takes --side left or --side right, and without it works on both alike.",
  ],
  declare: (commander) => commander,
  run: async (options, job) => alterSheet(job, options, split, reportOf),
});

const reportOf = ({ panels, girth }: SplitSides['change'], before: Pattern): Report => ({
  text: () => panels.map(({ pair, left, right }) => `${pair}: now ${left} and ${right}\n`).join(''),
  last: () => `Split ${countOf(before.panels.length, 'panel')} into left and right; nothing has changed its size.`,
  json: () => ({
    panels,
    levels: girth.map(({ level, before: was, after }) => ({ level, before_mm: was, after_mm: after })),
  }),
});
