import { Command as Commander, CommanderError } from 'commander';
import { StaywrightError } from '../errors.ts';
import { nearestName } from '../pattern/suggest.ts';
import { collect } from './collect.ts';
import type { Command } from './command.ts';
import type { SharedOptions } from './job.ts';
import { declareShared, IS_DELIVERY } from './shared-options.ts';
import { shellWord } from '../record/shell-word.ts';

/** One option of a command as help shows it. */
export interface OptionHelp {
  readonly flags: string;
  readonly says: string;
  readonly shared: boolean;
  readonly repeatable: boolean;
  /** The words that its value may be, where they are a closed list that the flags do not show. */
  readonly words?: readonly string[];
}

/** A parsed command line. */
export interface CommandLine {
  /** The other sheet, for a command that takes one. */
  readonly other?: string;
  readonly input: string | undefined;
  /** Further scans, for a command that takes many. */
  readonly more: readonly string[];
  readonly options: Readonly<Record<string, unknown>>;
  readonly shared: SharedOptions;
  /** The command as the record keeps it, from these options or from others that say the same. */
  readonly canonical: (options: Readonly<Record<string, unknown>>) => string;
}

/** Parses what follows a command's name; everything wrong with it is a usage error with a hint. */
export const parseCommandLine = (command: Command, words: readonly string[]): CommandLine => {
  const commander = commanderOf(command);
  try {
    commander.parse([...words], { from: 'user' });
  } catch (error) {
    throw error instanceof CommanderError ? usageError(error, command, commander) : error;
  }
  refuseLooseUnit(words, commander.args);
  const [other, ...named] = command.takesOther ? commander.args : [undefined, ...commander.args];
  const [input, ...more] = named as string[];
  const [extra] = more;
  if (extra !== undefined && command.reads !== 'scans') {
    throw new StaywrightError('usage', `one sheet at a time${command.takesOther ? ', after the other' : ''}`, {
      where: extra,
      hint: 'a folder is read as DIR/; a text with spaces needs quotes',
    });
  }
  if (command.takesOther) refuseOther(command, other, input);
  const options = commander.opts();
  if (options['units'] !== undefined && options['units'] !== 'mm' && options['units'] !== 'in') {
    throw new StaywrightError('usage', `'${String(options['units'])}' is not mm or in`, { where: '--units' });
  }
  if (options['side'] !== undefined && options['side'] !== 'left' && options['side'] !== 'right') {
    throw new StaywrightError('usage', `'${String(options['side'])}' is not left or right`, { where: '--side' });
  }
  const canonical: CommandLine['canonical'] = (values) => canonicalOf(command, commander, values);
  return { ...(other === undefined ? {} : { other }), input, more, options, shared: options, canonical };
};

/** What ends in figures, as `6`, `1/2` or `waist=2`: the front part of a length. */
const FIGURES = /(?:^|[=:,])[+-]?[\d./]+$/;

/** `--amount 6 mm`: the unit stands as a word of its own, which would be taken for a sheet. */
const refuseLooseUnit = (words: readonly string[], operands: readonly string[]): void => {
  const isFigures = (i: number): boolean => FIGURES.test(words[i] ?? '');
  const at = words.findIndex((word, i) => /^(?:mm|cm|in)$/i.test(word) && operands.includes(word) && isFigures(i - 1));
  if (at < 0) return;
  const figures: string[] = [];
  for (let i = at - 1; isFigures(i); i -= 1) figures.unshift(words[i]!);
  const option = words[at - figures.length - 1];
  throw new StaywrightError('usage', `'${[...figures, words[at]].join(' ')}' is more than one word`, {
    ...(option?.startsWith('--') ? { where: option } : {}),
    hint: `write ${figures.join('-')}${words[at]!}, without the space`,
  });
};

/** The other sheet must be named, and standard input holds one sheet only. */
const refuseOther = ({ name }: Command, other: string | undefined, input: string | undefined): void => {
  if (other === undefined) {
    throw new StaywrightError('usage', 'which other sheet?', {
      hint: `write staywright ${name} OTHER.svg FILE.svg; without FILE.svg that one comes from standard input`,
    });
  }
  if (other === '-' && (input ?? '-') === '-') {
    throw new StaywrightError('usage', 'standard input holds one sheet, not two', {
      where: '-',
      hint: `name the other as a file: staywright ${name} OTHER.svg -`,
    });
  }
};

/** A command's options for its help. */
export const optionsOf = (command: Command): OptionHelp[] => {
  const own = ownOptions(command);
  return commanderOf(command).options.map(({ flags, description, argChoices, parseArg }, at) => ({
    flags,
    says: description,
    shared: at >= own,
    repeatable: parseArg === collect,
    ...(argChoices === undefined ? {} : { words: argChoices }),
  }));
};

/** How many options a command has of its own; they come first. */
const ownOptions = (command: Command): number => command.declare(new Commander() as never).options.length;

const commanderOf = (command: Command): Commander => {
  const commander = new Commander(command.name)
    .exitOverride()
    .configureOutput({ writeOut: () => {}, writeErr: () => {} })
    .helpOption(false)
    .allowExcessArguments();
  return declareShared(command.declare(commander as never), command) as unknown as Commander;
};

const usageError = (error: CommanderError, command: Command, commander: Commander): StaywrightError => {
  const [, flag = ''] = /'([^' ]+)/.exec(error.message) ?? [];
  if (error.code === 'commander.unknownOption') {
    const near = nearestName(
      flag,
      commander.options.map((option) => option.long ?? option.flags),
    );
    const hint = near === undefined ? `staywright help ${command.name} lists the options` : `did you mean ${near}?`;
    return new StaywrightError('usage', 'there is no such option', { where: flag, hint });
  }
  if (error.code === 'commander.optionMissingArgument') {
    const option = commander.options.find(({ flags }) => flags.startsWith(flag) || flags.includes(` ${flag} `));
    const like = option?.flags.replace(/^-\w, /, '') ?? flag;
    return new StaywrightError('usage', 'a value is missing', { where: flag.replace(/,$/, ''), hint: `write ${like}` });
  }
  return new StaywrightError('usage', error.message.replace(/^error: /, ''));
};

/** Own options in their declared order, values as typed, quoted for a shell where they must be. */
const canonicalOf = (command: Command, commander: Commander, values: Readonly<Record<string, unknown>>): string => {
  const own = ownOptions(command);
  const words = commander.options
    .filter(({ long }, at) => long !== undefined && (at < own || !IS_DELIVERY.has(long)))
    .filter(({ long }) => !command.fileOptions.includes(long!))
    .flatMap((option) => {
      const value = values[option.attributeName()];
      if (value === undefined || value === false) return [];
      if (value === true) return [option.long!];
      return [value].flat().flatMap((text) => [option.long!, shellWord(String(text).trim())]);
    });
  return [command.name, ...words].join(' ');
};
