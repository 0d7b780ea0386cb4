import { setGusset } from '../alterations/gusset.ts';
import { defineCommand } from '../cli/command.ts';
import { alterSheet } from './alter-sheet.ts';
import { declareGusset, GUSSET_NOTES, gussetOf } from './gusset-options.ts';
import { gussetReport } from './gusset-report.ts';

export const gusset = defineCommand({
  name: 'gusset',
  summary: 'opens a seam or a slit and makes the gusset that fills it',
  kind: 'sheet',
  drawsOverlay: true,
  takesSide: true,
  examples: [
    {
      says: 'room over the hip: two inches more on each half, from below the waist down',
      line: 'staywright gusset net.svg --seam side --below waist-1in --width 2in -o v2.svg',
    },
    {
      says: 'a slit half-way across a panel, curved sides, as wide as the body measured',
      line: 'staywright gusset net.svg --panel side-front --slit waist-1in:0.5 \\\n  --measured 48mm,54mm --sides curved -o v2.svg',
    },
    {
      says: 'five inches up from the bottom; what does it measure then?',
      line: 'staywright gusset net.svg --seam side --length 5in --width 2in |\n  staywright girth',
    },
  ],
  notes: GUSSET_NOTES,
  declare: declareGusset,
  run: async (options, job) => {
    const asked = gussetOf(options);
    return alterSheet(
      job,
      options,
      (pattern, redraw) => setGusset(pattern, asked, redraw),
      (change, _pattern, units) => gussetReport(change, asked, units),
    );
  },
});
