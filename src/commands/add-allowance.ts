import { addAllowance as addWidths } from '../alterations/add-allowance.ts';
import { choiceOption } from '../cli/choice-option.ts';
import { collect } from '../cli/collect.ts';
import { defineCommand } from '../cli/command.ts';
import { countOf } from '../cli/count-of.ts';
import { readSheet } from '../cli/read-sheet.ts';
import { recordChange } from '../cli/record-change.ts';
import { CORNER_STYLES } from '../pattern/panel.ts';
import { allowanceWidths, cornerStyles } from './allowance-options.ts';
import { allowanceReport } from './allowance-report.ts';

export const addAllowance = defineCommand({
  name: 'add-allowance',
  summary: 'stitching line to cutting line, a width for each edge',
  kind: 'sheet',
  examples: [
    {
      says: '15 mm all round, less at top and bottom where a binding goes on',
      line: 'staywright add-allowance net.svg --allowance 15mm \\\n  --allowance top=6mm,bottom=6mm -o cut.svg',
    },
    {
      says: 'top and bottom turned under: the allowance folds back flat',
      line: 'staywright add-allowance net.svg --allowance 5/8in --corners folded -o cut.svg',
    },
    {
      says: 'straight to pages',
      line: 'staywright add-allowance net.svg --allowance 15mm |\n  staywright print -o print.pdf',
    },
  ],
  notes: [
    'The stitching line stays the line of the panel; the cutting line is drawn round it, and drawn again after every later alteration.',
    'Corners where a seam meets top or bottom: mitre (default), both lines run on until they meet; square, cut off at right angles to the seam; folded, mirrored about the stitching line, for an edge that is turned under.',
  ],
  declare: (commander) =>
    commander
      .option('--allowance <width>', 'all edges 15mm, or one top=6mm; repeatable', collect)
      .addOption(
        choiceOption(
          '--corners <style>',
          'mitre, square or folded; or top=folded,bottom=square',
          CORNER_STYLES,
        ).argParser(collect),
      ),
  run: async (options, job) => {
    const { sheet, units, findings } = await readSheet(job);
    const added = addWidths(sheet.pattern, allowanceWidths(options.allowance), cornerStyles(options.corners));
    const panels = countOf(added.pattern.panels.length, 'panel');
    return {
      sheet: recordChange(sheet, added.pattern, job.canonical(options)),
      report: allowanceReport(
        added.change,
        units,
        `Allowance added round ${panels}; the stitching lines are as they were.`,
      ),
      findings: [...findings, ...added.findings],
    };
  },
});
