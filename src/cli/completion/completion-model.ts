import knownLevels from '../../../shared/known-levels.json' with { type: 'json' };
import paperSizes from '../../../shared/paper-sizes.json' with { type: 'json' };
import type { Command } from '../command.ts';
import { optionsOf, type OptionHelp } from '../parse-command-line.ts';

/** What may stand in one place of a command line: words out of a list, files by their endings, or both. */
export interface Offer {
  readonly words: readonly string[];
  /** Endings without the dot, none for any file; undefined where no file is meant. */
  readonly files?: readonly string[];
}

export interface CompletedOption {
  readonly long: string;
  readonly short?: string;
  readonly says: string;
  readonly repeatable: boolean;
  /** What its value is called and may be; undefined for a flag. */
  readonly value?: Offer & { readonly called: string };
}

export interface CompletedCommand {
  readonly name: string;
  readonly summary: string;
  readonly options: readonly CompletedOption[];
  readonly operand: Offer;
}

/** What a shell may offer after each command, from the declarations that parsing and help use. */
export const completionModel = (commands: readonly Command[]): CompletedCommand[] =>
  commands.map((command) => ({
    name: command.name,
    summary: command.summary,
    options: [...optionsOf(command).map((option) => completedOption(option, command)), HELP],
    operand: { words: [], files: OPERANDS[command.reads] },
  }));

const HELP: CompletedOption = { long: '--help', short: '-h', says: 'what it takes, with examples', repeatable: false };

const PICTURES = ['png', 'jpg', 'jpeg', 'tif', 'tiff'];

const OPERANDS: Readonly<Record<Command['reads'], readonly string[]>> = {
  sheets: ['svg'],
  drawings: ['svg'],
  both: ['svg', ...PICTURES],
  scans: PICTURES,
};

const EDGES = ['top', 'bottom'];
const LEVELS = [...knownLevels.levels, ...EDGES];

/** Words for values by what the flags call them; a sheet may well have further levels. */
const WORDS: Readonly<Record<string, readonly string[]>> = {
  level: LEVELS,
  levels: LEVELS,
  edge: EDGES,
  size: paperSizes.sizes.map(({ name }) => name),
};

const completedOption = ({ flags, says, repeatable, words }: OptionHelp, command: Command): CompletedOption => {
  const [, short, long = '', called] = /^(?:(-\w), )?(--[\w-]+)(?: [<[](.+)[>\]])?$/.exec(flags) ?? [];
  const option = { long, says, repeatable, ...(short === undefined ? {} : { short }) };
  if (called === undefined) return option;
  const files = filesOf(long, called, says, command);
  const value = { called, words: words ?? wordsOf(called), ...(files === undefined ? {} : { files }) };
  return { ...option, value };
};

/** `<left|right>` names its words; `<level|edge>` and `<level>` name what the value is. */
const wordsOf = (called: string): readonly string[] => {
  const parts = called.split('|');
  return [...new Set(parts.flatMap((part) => WORDS[part] ?? (parts.length > 1 ? [part] : [])))];
};

/** The endings that the option's own words name (`FILE.svg`, `JSON file`), else the one that it is called by. */
const filesOf = (long: string, called: string, says: string, command: Command): readonly string[] | undefined => {
  const named = [...says.matchAll(/FILE\.([a-z]+)|(JSON) file/g)].map(
    ([, ending, word]) => ending ?? word!.toLowerCase(),
  );
  if (named.length > 0) return [...new Set(named)];
  if (called !== 'file' && !command.fileOptions.includes(long)) return undefined;
  return long === '--pdf' ? ['pdf'] : [];
};
