import { choiceOption } from '../cli/choice-option.ts';
import { collect } from '../cli/collect.ts';
import { defineCommand } from '../cli/command.ts';
import { parseNames } from '../cli/parse-names.ts';
import { writeDrawing } from '../svg/write-drawing.ts';
import { nameTraced } from './name-traced.ts';
import { PICTURE_KINDS, traceAnswers } from './trace-answers.ts';
import { traceReport } from './trace-report.ts';
import { traceScans } from './trace-scans.ts';

export const trace = defineCommand({
  name: 'trace',
  summary: 'a scanned paper pattern to panel outlines in true mm',
  kind: 'drawing',
  reads: 'scans',
  takesSide: false,
  fileOptions: ['--preview'],
  examples: [
    {
      says: 'a square of 50 mm is printed on the sheet; a picture to judge the result by',
      line: 'staywright trace scan.png --test-square 50mm -o traced.svg \\\n  --preview preview.png',
    },
    {
      says: 'a panel longer than the scanner, scanned in two parts that overlap',
      line: 'staywright trace upper.png lower.png --join --test-square 50mm \\\n  -o traced.svg',
    },
    {
      says: 'no square is printed; two lines run right across; straight on to a sheet',
      line: 'staywright trace scan.png --dpi 300 --level bust,waist |\n  staywright label --line cutting --panels front,back --seams cf,side,cb \\\n  --level bust -o cut.svg',
    },
  ],
  notes: [
    'PNG, JPEG and TIFF are read. Printed outlines are traced along the middle of their ink, pieces cut out of paper along their edge; the picture shows which of the two it is. Panels are called panel-1 and so on, from left to right and on through further scans.',
    'The scale comes from the printed square, which also puts right what the scanner stretched, turned or skewed; else from --dpi; else from what the file says of itself, which is only a hint.',
    'Ticks across an outline and V cuts become notches, a line with arrows the grainline. One line right across a panel is its waist; several are named with --level.',
  ],
  declare: (commander) =>
    commander
      .option('--test-square <length>', 'the side of a printed square, to scale by')
      .option('--dpi <number>', 'pixels to the inch, where no square is printed')
      .addOption(choiceOption('--kind <kind>', 'line: printed outlines, or cutout: pieces of paper', PICTURE_KINDS))
      .option('--join', 'the scans overlap and show one sheet')
      .option('--level <names>', 'the lines right across, from the top: bust,waist', collect)
      .option('--preview <file>', 'write FILE.png: the scan, what was traced over it')
      .option('--units <mm|in>', 'units of the report (mm)'),
  run: async (options, job) => {
    const { join = false, preview, level } = options;
    const { output } = job.shared;
    const names = level === undefined ? undefined : parseNames(level, '--level');
    const wishes = {
      join,
      ...(preview === undefined ? {} : { preview }),
      ...(output === undefined ? {} : { output }),
    };
    const done = await traceScans([job.input ?? '-', ...job.more], traceAnswers(options), wishes, job);
    const traced = done.scans.map((scan) => scan.traced);
    const named = nameTraced(traced, names);
    return {
      drawing: writeDrawing(done.name, named.drawn),
      files: done.previews,
      report: traceReport(done.scans, named, job.shared.units ?? 'mm'),
      findings: [...done.findings, ...traced.flatMap(({ findings }) => findings), ...named.findings],
    };
  },
});
