import { slash as slashPattern } from '../alterations/slash.ts';
import { defineCommand } from '../cli/command.ts';
import { alterSheet } from './alter-sheet.ts';
import { declareSlash, SLASH_NOTES, slashOf } from './slash-options.ts';
import { slashReport } from './slash-report.ts';

export const slash = defineCommand({
  name: 'slash',
  summary: 'slashes a panel and spreads or overlaps its parts',
  kind: 'sheet',
  drawsOverlay: true,
  examples: [
    {
      says: 'three slashes from the bottom of a panel to the waist, each opened 6 mm',
      line: 'staywright slash net.svg --panel side-front --from bottom --hinge waist \\\n  --lines 3 --spread 6mm -o v2.svg',
    },
    {
      says: 'a tuck of a quarter inch at the waist of centre back, nothing at the blade seam',
      line: 'staywright slash net.svg --panel back --from cb --hinge blade --level waist \\\n  --spread -1/4in -o v2.svg',
    },
    {
      says: 'overlapped right through, the same at every level; what does it measure then?',
      line: 'staywright slash net.svg --panel side-front --from top --parallel \\\n  --spread -1/4in | staywright girth',
    },
  ],
  notes: SLASH_NOTES,
  declare: declareSlash,
  run: async (options, job) =>
    alterSheet(
      job,
      options,
      (pattern, redraw) => slashPattern(pattern, slashOf(options), redraw),
      (change, _pattern, units) => slashReport(change, units),
    ),
});
