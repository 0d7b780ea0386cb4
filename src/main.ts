import type { Command } from './cli/command.ts';
import { EXIT, exitCodeOf } from './cli/exit-code.ts';
import type { CommandEntry } from './cli/main-help.ts';
import { toleratePipes, writeStream } from './cli/write-stream.ts';
import { StaywrightError } from './errors.ts';

interface LazyCommand extends CommandEntry {
  readonly load: () => Promise<Command>;
}

/** Every command; none is loaded before it is asked for. */
export const COMMANDS: readonly LazyCommand[] = [
  {
    group: 'Read in',
    name: 'trace',
    summary: 'a scanned paper pattern to panel outlines in true mm',
    load: async () => (await import('./commands/trace.ts')).trace,
  },
  {
    group: 'Read in',
    name: 'label',
    summary: 'names panels, seams and levels: a drawing becomes a sheet',
    load: async () => (await import('./commands/label.ts')).label,
  },
  {
    group: 'Read in',
    name: 'check',
    summary: 'everything that can be wrong with a sheet, and its cure',
    load: async () => (await import('./commands/check.ts')).check,
  },
  {
    group: 'Allowance',
    name: 'strip-allowance',
    summary: 'cutting line to stitching line',
    load: async () => (await import('./commands/strip-allowance.ts')).stripAllowance,
  },
  {
    group: 'Allowance',
    name: 'add-allowance',
    summary: 'stitching line to cutting line, a width for each edge',
    load: async () => (await import('./commands/add-allowance.ts')).addAllowance,
  },
  {
    group: 'Measure',
    name: 'girth',
    summary: 'round the body at every level, panel by panel',
    load: async () => (await import('./commands/girth.ts')).girth,
  },
  {
    group: 'Measure',
    name: 'gap',
    summary: 'the lacing gap on a body, and what each level needs',
    load: async () => (await import('./commands/gap.ts')).gap,
  },
  {
    group: 'Measure',
    name: 'walk',
    summary: 'do the two edges of each seam match? lengths, notches, angles',
    load: async () => (await import('./commands/walk.ts')).walk,
  },
  {
    group: 'Alter',
    name: 'take-in',
    summary: 'moves stitching lines inwards: smaller round the body',
    load: async () => (await import('./commands/take-in.ts')).takeIn,
  },
  {
    group: 'Alter',
    name: 'let-out',
    summary: 'moves stitching lines outwards: larger round the body',
    load: async () => (await import('./commands/let-out.ts')).letOut,
  },
  {
    group: 'Alter',
    name: 'raise-line',
    summary: 'moves a level and the shape around it up or down',
    load: async () => (await import('./commands/raise-line.ts')).raiseLine,
  },
  {
    group: 'Alter',
    name: 'lengthen',
    summary: 'makes the part between two levels longer',
    load: async () => (await import('./commands/lengthen.ts')).lengthen,
  },
  {
    group: 'Alter',
    name: 'shorten',
    summary: 'makes the part between two levels shorter',
    load: async () => (await import('./commands/shorten.ts')).shorten,
  },
  {
    group: 'Alter',
    name: 'slash',
    summary: 'slashes a panel and spreads or overlaps its parts',
    load: async () => (await import('./commands/slash.ts')).slash,
  },
  {
    group: 'Alter',
    name: 'redraw-edge',
    summary: 'the top or bottom line up or down, smooth across panels',
    load: async () => (await import('./commands/redraw-edge.ts')).redrawEdge,
  },
  {
    group: 'Alter',
    name: 'gusset',
    summary: 'opens a seam or a slit and makes the gusset that fills it',
    load: async () => (await import('./commands/gusset.ts')).gusset,
  },
  {
    group: 'Alter',
    name: 'splice',
    summary: 'takes parts from another size or version, with fair joins',
    load: async () => (await import('./commands/splice.ts')).splice,
  },
  {
    group: 'Alter',
    name: 'true',
    summary: 'makes the edges of each seam equal, smooth across, notches met',
    load: async () => (await import('./commands/true.ts')).trueSeams,
  },
  {
    group: 'Alter',
    name: 'split-sides',
    summary: 'pairs to left and right panels, for an uneven body',
    load: async () => (await import('./commands/split-sides.ts')).splitSides,
  },
  {
    group: 'Print',
    name: 'print',
    summary: 'pages at true scale, as PDF',
    load: async () => (await import('./commands/print.ts')).print,
  },
  {
    group: 'Print',
    name: 'picture',
    summary: 'panels side by side at the waist line, or girths on a body',
    load: async () => (await import('./commands/picture.ts')).picture,
  },
  {
    group: 'Versions',
    name: 'compare',
    summary: 'two versions: what moved where and by how much',
    load: async () => (await import('./commands/compare.ts')).compare,
  },
  {
    group: 'Versions',
    name: 'describe',
    summary: 'lengths, girths and angles as stable lines, for git diff',
    load: async () => (await import('./commands/describe.ts')).describe,
  },
  {
    group: 'Versions',
    name: 'record',
    summary: 'every change as a shell script, to read or to run again',
    load: async () => (await import('./commands/record.ts')).record,
  },
];

const NAMES = [...COMMANDS.map(({ name }) => name), 'completion'];

/** Runs one command line, without the interpreter and the script; gives the exit code and never throws. */
export const main = async (words: readonly string[]): Promise<number> => {
  toleratePipes();
  const spoken = NAMES.find((name) => name === words[0]);
  try {
    return await run(words);
  } catch (error) {
    const { errorText } = await import('./cli/error-text.ts');
    await writeStream(process.stderr, errorText(error, spoken));
    return exitCodeOf(error);
  }
};

const run = async ([word, ...rest]: readonly string[]): Promise<number> => {
  if (word === '--version') {
    const { VERSION } = await import('./cli/version.ts');
    await writeStream(process.stdout, `staywright ${VERSION}\n`);
    return EXIT.done;
  }
  if (word === undefined || word === '-h' || word === '--help' || (word === 'help' && rest.length === 0)) {
    const { mainHelp } = await import('./cli/main-help.ts');
    await writeStream(word === undefined ? process.stderr : process.stdout, mainHelp(COMMANDS));
    return word === undefined ? EXIT.usage : EXIT.done;
  }
  if (word === 'completion' || (word === 'help' && rest[0] === 'completion')) return complete(word, rest);
  if (word === 'help') return help(await commandNamed(rest[0]!));
  const command = await commandNamed(word);
  if (rest.some((part) => part === '-h' || part === '--help')) return help(command);
  const { runCommand } = await import('./cli/run-command.ts');
  return runCommand(command, rest, commandNamed);
};

const complete = async (word: string, rest: readonly string[]): Promise<number> => {
  const { completion, completionHelp } = await import('./cli/completion/completion.ts');
  const asksHelp = word === 'help' || rest.some((part) => part === '-h' || part === '--help');
  const commands = asksHelp ? [] : await Promise.all(COMMANDS.map(({ load }) => load()));
  await writeStream(process.stdout, asksHelp ? completionHelp() : completion(rest, commands));
  return EXIT.done;
};

const help = async (command: Command): Promise<number> => {
  const { commandHelp } = await import('./cli/command-help.ts');
  await writeStream(process.stdout, commandHelp(command));
  return EXIT.done;
};

const commandNamed = async (typed: string): Promise<Command> => {
  const entry = COMMANDS.find(({ name }) => name === typed);
  if (entry !== undefined) return entry.load();
  const { nearestName } = await import('./pattern/suggest.ts');
  const near = nearestName(typed, NAMES);
  throw new StaywrightError('usage', 'there is no such command', {
    where: typed,
    hint: near === undefined ? 'staywright help lists the commands' : `did you mean ${near}?`,
  });
};
