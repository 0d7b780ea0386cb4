import { stripAllowance as stripWidths } from '../alterations/strip-allowance.ts';
import { collect } from '../cli/collect.ts';
import { defineCommand, type Report } from '../cli/command.ts';
import { countOf } from '../cli/count-of.ts';
import type { Job } from '../cli/job.ts';
import { readSheetOrDrawing } from '../cli/read-sheet.ts';
import { recordChange } from '../cli/record-change.ts';
import type { Labelled } from '../labelling/label-drawing.ts';
import type { Drawing } from '../pattern/drawing.ts';
import { allowanceWidths } from './allowance-options.ts';
import { allowanceReport } from './allowance-report.ts';
import { traceFirst } from './trace-first.ts';

export const stripAllowance = defineCommand({
  name: 'strip-allowance',
  summary: 'cutting line to stitching line',
  kind: 'sheet',
  reads: 'both',
  examples: [
    { says: '5/8 inch all round', line: 'staywright strip-allowance cut.svg --allowance 5/8in -o net.svg' },
    {
      says: 'another width at top and bottom, none where centre front is on the fold',
      line: 'staywright strip-allowance cut.svg --allowance 15mm \\\n  --allowance top=6mm,bottom=6mm,cf=0mm -o net.svg',
    },
    {
      says: 'straight from a scan with a printed square of 50 mm',
      line: 'staywright strip-allowance scan.png --test-square 50mm --allowance 5/8in \\\n  -o net.svg',
    },
    {
      says: 'what does it measure without?',
      line: 'staywright strip-allowance cut.svg --allowance 5/8in | staywright girth',
    },
  ],
  notes: [
    'Each edge moves inwards by its width; notches, levels and marks are carried over. A sheet to which add-allowance drew the cutting line needs no widths: that line is dropped. A plain drawing takes one width for all round, and so does a scan (PNG, JPEG or TIFF), which is traced first.',
  ],
  declare: (commander) =>
    commander
      .option('--allowance <width>', 'all edges 15mm, or one top=6mm; repeatable', collect)
      .option('--dpi <number>', 'pixels to the inch of a scan without a printed square'),
  run: async (options, job) => {
    const widths = allowanceWidths(options.allowance);
    const scan = await traceFirst(options, job);
    const reading = scan ?? (await readSheetOrDrawing(job));
    const before = reading.kind === 'sheet' ? reading.sheet : undefined;
    const { pattern: cut, findings } =
      reading.kind === 'sheet'
        ? { pattern: reading.sheet.pattern, findings: [] }
        : await plainPanels(reading.drawing, job);
    const stripped = stripWidths(cut, widths);
    const units = job.shared.units ?? cut.units;
    const panels = countOf(cut.panels.length, 'panel');
    const report = allowanceReport(
      stripped.change,
      units,
      `Allowance taken off ${panels}; the edges are stitching lines now.`,
    );
    return {
      sheet: recordChange(before, stripped.pattern, job.canonical(options)),
      report: scan === undefined ? report : afterTracing(scan.report, report),
      findings: [...reading.findings, ...findings, ...stripped.findings],
    };
  },
});

/** What was traced comes first. */
const afterTracing = (traced: Report, stripped: Report): Report => ({
  ...stripped,
  text: () => `${traced.text()}\n${stripped.text()}`,
  json: () => ({ traced: traced.json(), ...stripped.json() }),
});

const plainPanels = async (drawing: Drawing, job: Job): Promise<Labelled> => {
  const { unlabelledPattern } = await import('../labelling/unlabelled-pattern.ts');
  return unlabelledPattern(drawing, job.shared.units ?? 'mm');
};
