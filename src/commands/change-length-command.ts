import { changeLength } from '../alterations/change-length.ts';
import { defineCommand, type Command, type Example } from '../cli/command.ts';
import { parseLength } from '../cli/parse-length.ts';
import { parseLevels } from '../cli/parse-level.ts';
import { usage } from '../errors.ts';
import { alterSheet } from './alter-sheet.ts';
import { changeLengthReport } from './change-length-report.ts';

/** lengthen and shorten: one command in two directions. */
export const changeLengthCommand = (
  name: string,
  direction: 'longer' | 'shorter',
  summary: string,
  examples: readonly Example[],
): Command =>
  defineCommand({
    name,
    summary,
    kind: 'sheet',
    drawsOverlay: true,
    examples,
    notes: [
      'The waist stays where it is; all beyond the two levels moves away from it, or towards it, as it is: edges, levels, notches, bones. Every panel changes alike, so that its neighbours still fit. With the waist between the two levels, the parts above and below it share the amount in proportion.',
      'Each level keeps its width, and seams stay smooth. top and bottom are the lowest top and the highest bottom of all panels. A negative amount is the opposite.',
    ],
    declare: (commander) =>
      commander
        .option('--between <levels>', 'bust,waist or waist-1in,hip: the part that changes')
        .option('--amount <length>', `by how much that part gets ${direction}: 0.5in, 12mm`),
    run: async (options, job) =>
      alterSheet(
        job,
        options,
        (pattern, redraw) => {
          const { between, amount } = options;
          if (between === undefined) throw usage('between which levels?', '--between', 'such as --between bust,waist');
          if (amount === undefined) throw usage('how much?', '--amount', 'such as --amount 12mm');
          const [one, other, third] = parseLevels(between, '--between');
          if (one === undefined || other === undefined || third !== undefined) {
            throw usage('needs two levels', '--between', 'write --between bust,waist');
          }
          const what = { between: [one, other], direction, amount: parseLength(amount, '--amount') } as const;
          return changeLength(pattern, what, redraw);
        },
        (change, _, units) => changeLengthReport(change, units),
      ),
  });
