import { moveSeams } from '../alterations/move-seams.ts';
import { defineCommand, type Command, type Example } from '../cli/command.ts';
import { seamsOf } from '../pattern/look-up.ts';
import { alterSheet } from './alter-sheet.ts';
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
    drawsOverlay: true,
    examples,
    notes: MOVE_NOTES,
    declare: declareMove,
    run: async (options, job) =>
      alterSheet(
        job,
        options,
        (pattern, redraw) => {
          const what = moveOf(options, direction, seamsOf(pattern));
          const { change, ...moved } = moveSeams(pattern, what, redraw);
          return { ...moved, change: { ...change, what } };
        },
        ({ what, ...change }, pattern, units) => moveReport(change, what, pattern, units),
      ),
  });
