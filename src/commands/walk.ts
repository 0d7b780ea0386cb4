import { collect } from '../cli/collect.ts';
import { defineCommand } from '../cli/command.ts';
import { drawWalk } from '../cli/draw-walk.ts';
import { parseLength } from '../cli/parse-length.ts';
import { parseNames } from '../cli/parse-names.ts';
import { readSheet } from '../cli/read-sheet.ts';
import { recordChange } from '../cli/record-change.ts';
import { StaywrightError } from '../errors.ts';
import { TRUE_WITHIN, walk as walkSeams } from '../measure/walk.ts';
import { walkReport } from './walk-report.ts';

export const walk = defineCommand({
  name: 'walk',
  summary: 'do the two edges of each seam match? lengths, notches, angles',
  kind: 'measure',
  examples: [
    { says: 'every seam, to 1/16 in', line: 'staywright walk net.svg' },
    {
      says: 'only the side seam, to a tenth of a millimetre',
      line: 'staywright walk net.svg --seam side --tolerance 0.1mm',
    },
    {
      says: 'does truing leave nothing to do?',
      line: 'staywright let-out net.svg --seam side --amount 6mm --below waist |\n  staywright true | staywright walk',
    },
  ],
  notes: [
    'The two edges of a seam are laid together at the waist and walked up and down from it; a seam that does not cross the waist, from its end nearest to it. Notches are paired by their distance along the seam; one with no other within an inch is single.',
    'Top and bottom edges are smooth across a seam where the two inside angles sum to 180 degrees, within 2: more is a dip into the garment, less a peak. More than 30 degrees off is taken for a point drawn on purpose, and only noted.',
    'Exit code 0: every seam matches; 1: something does not; 2: the sheet could not be read.',
  ],
  declare: (commander) =>
    commander
      .option('--seam <names>', 'seams to walk: side or side,princess; repeatable (all)', collect)
      .option('--tolerance <length>', 'how much lengths and notches may differ (1.6mm)'),
  run: async (options, job) => {
    const { sheet, units, findings } = await readSheet(job);
    const within = options.tolerance === undefined ? TRUE_WITHIN : toleranceOf(options.tolerance);
    const asked = parseNames(options.seam ?? [], '--seam');
    const walked = walkSeams({ ...sheet.pattern, units }, asked, within);
    const drawn = drawWalk(sheet.pattern, walked, within, units);
    return {
      sheet,
      drawn: recordChange(sheet, drawn, `${job.canonical(options)} --through`),
      report: walkReport(walked, asked, within, units),
      findings,
      found: [walked.lengths, walked.notches, walked.bends].some((found) => found.length > 0),
    };
  },
});

const toleranceOf = (text: string): number => {
  const within = parseLength(text, '--tolerance');
  if (within >= 0) return within;
  throw new StaywrightError('usage', 'a tolerance is not less than nothing', { where: '--tolerance' });
};
