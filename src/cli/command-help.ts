import type { Command, Example } from './command.ts';
import { optionsOf } from './parse-command-line.ts';
import { wrapWords } from './wrap-words.ts';

const WIDTH = 80;

/** The whole help of one command: examples first, then what it takes. */
export const commandHelp = (command: Command): string => {
  const { name, summary, examples, notes, sample = [] } = command;
  const options = optionsOf(command);
  const column = Math.min(Math.max(...options.map(({ flags }) => flags.length)) + 4, 28);
  const optionBlock = (shared: boolean): string[] =>
    options.filter((option) => option.shared === shared).flatMap(({ flags, says }) => optionLines(flags, says, column));
  const blocks = [
    [`staywright ${name}: ${summary}`],
    ...examples.map(exampleLines),
    [usageOf(command)],
    optionBlock(false),
    optionBlock(true),
    ...notes.map((note) => wrapWords(note, WIDTH)),
    sample,
  ];
  return blocks
    .filter((lines) => lines.length > 0)
    .map((lines) => `${lines.join('\n')}\n`)
    .join('\n');
};

const exampleLines = ({ says, line }: Example): string[] => {
  const comment = wrapWords(says, WIDTH - 4).map((part) => `  # ${part}`);
  return comment.concat(line.split('\n').map((part) => `  ${part}`));
};

/** What to print where a command was given nothing to read. */
export const shortHelp = (command: Command): string =>
  [usageOf(command), `  ${command.examples[0]!.line}`, `  staywright help ${command.name} says more`, ''].join('\n');

const usageOf = (command: Command): string => `Usage: staywright ${command.name} ${operandsOf(command)} [options]`;

/** What a command works on, as its usage shows it. */
export const operandsOf = ({ reads, takesOther }: Command): string =>
  reads === 'scans'
    ? '[SCAN... | -]'
    : `${takesOther ? 'OTHER.svg|DIR/ ' : ''}[FILE.svg${reads === 'drawings' ? '' : ' | DIR/'} | -]`;

const optionLines = (flags: string, says: string, column: number): string[] => {
  const parts = wrapWords(says, WIDTH - column);
  const start = `  ${flags}`;
  if (start.length + 2 > column) return [start, ...parts.map((part) => ' '.repeat(column) + part)];
  return parts.map((part, at) => (at === 0 ? start.padEnd(column) : ' '.repeat(column)) + part);
};
