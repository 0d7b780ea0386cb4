import { raiseLine as raise } from '../alterations/raise-line.ts';
import { collect } from '../cli/collect.ts';
import { defineCommand } from '../cli/command.ts';
import { parseLength } from '../cli/parse-length.ts';
import { parseLevel, parseLevels } from '../cli/parse-level.ts';
import { parseNames } from '../cli/parse-names.ts';
import { StaywrightError } from '../errors.ts';
import { alterSheet } from './alter-sheet.ts';
import { raiseLineReport } from './raise-line-report.ts';

export const raiseLine = defineCommand({
  name: 'raise-line',
  summary: 'moves a level and the shape around it up or down',
  kind: 'sheet',
  drawsOverlay: true,
  examples: [
    {
      says: 'the waist half an inch higher, nothing at the levels beside it',
      line: 'staywright raise-line net.svg --level waist --amount 0.5in -o v2.svg',
    },
    {
      says: 'waist and high hip together, 8 mm down, from the bust to the bottom edge',
      line: 'staywright raise-line net.svg --level waist,high-hip --amount -8mm \\\n  --hold bust,bottom -o v2.svg',
    },
    {
      says: 'what does the garment measure then, level by level?',
      line: 'staywright raise-line net.svg --level waist --amount 6mm | staywright girth',
    },
  ],
  notes: [
    'A positive amount is up. The points of every seam move straight up or down: each panel keeps its width at the level, and top and bottom edges stay. What moves fades out to nothing at the next named levels above and below, or at those that --hold names; where there is none, at the end of the shortest seam.',
    'Levels in between move with the shape, and notches go along; grainline and bones stay. The opposite amount undoes it.',
  ],
  declare: (commander) =>
    commander
      .option('--level <names>', 'named levels to move: waist or waist,high-hip; repeatable', collect)
      .option('--amount <length>', 'how far: 0.5in is up, -6mm is down')
      .option('--hold <levels>', 'where nothing moves (the next named levels)'),
  run: async (options, job) =>
    alterSheet(
      job,
      options,
      (pattern, redraw) => {
        if (options.amount === undefined) {
          throw new StaywrightError('usage', 'how far?', { where: '--amount', hint: 'up by 0.5in, down by -0.5in' });
        }
        const what = {
          levels: parseNames(options.level ?? [], '--level').map((level) => parseLevel(level, '--level')),
          amount: parseLength(options.amount, '--amount'),
          hold: options.hold === undefined ? [] : parseLevels(options.hold, '--hold'),
        };
        return raise(pattern, what, redraw);
      },
      (change, _, units) => raiseLineReport(change, units),
    ),
});
