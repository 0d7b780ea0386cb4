import { moveSeams } from '../alterations/move-seams.ts';
import { defineCommand, type Command, type Example } from '../cli/command.ts';
import { readSheet } from '../cli/read-sheet.ts';
import { recordChange } from '../cli/record-change.ts';
import { seamsOf } from '../pattern/look-up.ts';
import { declareMove, MOVE_NOTES, moveOf } from './move-options.ts';
import { moveReport } from './move-report.ts';

/** take-in and let-out: one command in two directions. */
export const moveCommand = (
  name: string,
  direction: 'in' | 'out',
  summary: string,
  examples: readonly Example[],
): Command =>
  defineCommand({
    name,
    summary,
    kind: 'sheet',
    examples,
    notes: MOVE_NOTES,
    declare: declareMove,
    run: async (options, job) => {
      const { sheet, units, findings } = await readSheet(job);
      const what = moveOf(options, direction, seamsOf(sheet.pattern));
      const drawn = sheet.pattern.panels.some(({ cutting }) => cutting !== undefined);
      const redraw = drawn ? (await import('../alterations/redraw-cutting.ts')).redrawCutting : undefined;
      const moved = moveSeams(sheet.pattern, what, redraw);
      return {
        sheet: recordChange(sheet, moved.pattern, job.canonical(options)),
        report: moveReport(moved.change, what, sheet.pattern, units),
        findings: [...findings, ...moved.findings],
      };
    },
  });
