import { StaywrightError } from '../errors.ts';
import type { Units } from '../pattern/pattern.ts';
import type { Step } from '../record/record-chain.ts';
import { shellWords } from '../record/shell-words.ts';

/** A recorded command, ready to be run again. */
export interface RecordedCommand {
  readonly name: string;
  /** What follows the name, without files. */
  readonly words: readonly string[];
  /** Whether it drew measures and left the shape alone, so that there is nothing to run. */
  readonly measures: boolean;
}

/** Options by which a command writes files: no record holds them, unless somebody has put them there. */
const WRITES = /^(?:-o|--(?:output|pdf|preview)(?:=|$)|--force$)/;

/** The command of a step. Throws `input` for what no run of the tool has recorded. */
export const recordedCommand = ({ number, change }: Step, units: Units): RecordedCommand => {
  const [name = '', ...words] = shellWords(change.command) ?? [];
  if (!/^[a-z][a-z-]*$/.test(name) || words.some((word) => WRITES.test(word))) {
    throw new StaywrightError('input', 'its command was not recorded by staywright', {
      where: `step ${number}`,
      hint: 'take the record as staywright wrote it; it is not meant to be edited',
    });
  }
  // A drawing has no units of its own, and not every command that reads one records those that were asked for.
  const inches = change.before === null && units === 'in' && !words.includes('--units');
  return { name, words: inches ? [...words, '--units', 'in'] : words, measures: words.includes('--through') };
};

/** `step 3, take-in`. */
export const stepName = ({ number, change }: Step): string =>
  `step ${number}, ${change.command.split(' ', 1)[0]!.slice(0, 40)}`;
