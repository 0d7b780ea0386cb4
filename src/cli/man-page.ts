/** The page of the manual, `staywright(1)`, from the texts that help shows; the same texts and version give the same bytes. */
import type { Command, Example } from './command.ts';
import { operandsOf } from './command-help.ts';
import { COMPLETION_SUMMARY, SHELLS } from './completion/tool-words.ts';
import { EXIT_MEANINGS } from './exit-code.ts';
import { foldCommand } from './fold-command.ts';
import type { CommandEntry } from './main-help.ts';
import { optionsOf, type OptionHelp } from './parse-command-line.ts';
import { bold, entry, escapeRoff, italic, paragraph, verbatim } from './roff.ts';
import { sharedOptionList } from './shared-option-list.ts';
import { LACING_CAUTION, LENGTH_NOTE, LEVEL_NOTE, STREAM_NOTES, TOOL_EXAMPLES, TOOL_SUMMARY } from './tool-texts.ts';
import { wrapWords } from './wrap-words.ts';

/** Columns that a line has on a screen of 80, once the page has set it in. */
const WIDTH = 72;

export const manPage = (entries: readonly CommandEntry[], commands: readonly Command[], version: string): string => {
  const blocks = [
    `.TH STAYWRIGHT 1 "" "staywright ${escapeRoff(version)}" "User Commands"`,
    '.nh',
    '.ad l',
    '.SH NAME',
    `staywright \\- ${escapeRoff(TOOL_SUMMARY)}`,
    '.SH SYNOPSIS',
    synopsis(),
    '.SH DESCRIPTION',
    ...DESCRIPTION.map((text) => paragraph(escapeRoff(text))),
    '.SH EXAMPLES',
    ...TOOL_EXAMPLES.map(exampleBlock),
    '.SH COMMANDS',
    ...commandList(entries),
    '.SH OPTIONS OF MANY COMMANDS',
    paragraph(escapeRoff('Each command below names those that it takes.')),
    ...sharedOptionList(commands).map(({ flags, says, only }) =>
      entry(flagsText(flags), escapeRoff(only === undefined ? says : `${only.join(', ')}: ${says}`)),
    ),
    entry(flagsText('-h, --help'), escapeRoff('the help of a command')),
    '.SH LENGTHS AND LEVELS',
    ...LENGTHS.map((text) => paragraph(escapeRoff(text))),
    '.SH EACH COMMAND',
    ...commands.flatMap(commandBlocks),
    '.SH EXIT STATUS',
    ...EXIT_MEANINGS.map(([code, meaning]) => entry(bold(String(code)), escapeRoff(meaning))),
    '.SH FILES',
    ...FILES.map(([file, says]) => entry(italic(file), escapeRoff(says))),
    '.SH ENVIRONMENT',
    ...ENVIRONMENT.map(([name, says]) => entry(bold(name), escapeRoff(says))),
    '.SH CAUTION',
    paragraph(escapeRoff(LACING_CAUTION)),
  ];
  return `${blocks.join('\n')}\n`;
};

const DESCRIPTION: readonly string[] = [
  'Alters patterns of close-fitting, many-panelled, boned garments for one real body. A pattern is a sheet: one SVG drawing in true millimetres, which any drawing program opens. Each command does one exact thing, reports what it did, and writes a new sheet; a file that was read is never changed.',
  `${STREAM_NOTES.join(' ')} On a terminal, without -o, only the report is shown.`,
  'Each sheet carries the record of its changes.',
];

const LENGTHS: readonly string[] = [
  `${LENGTH_NOTE} A number alone is refused.`,
  `${LEVEL_NOTE} A level is a line across every panel; besides the waist a sheet has whatever levels it was given.`,
];

const FILES: readonly (readonly [string, string])[] = [
  ['FILE.svg', 'a sheet, or a plain drawing where a command makes a sheet of it'],
  ['DIR/', 'a folder with a sheet for each panel, read and written as one; print.pdf beside them'],
  ['shared/reports/COMMAND.schema.json', 'in the package: what the --json report of a command holds'],
  ['shared/body.schema.json', 'in the package: the form of a body, for gap'],
  ['shared/label-answers.schema.json', 'in the package: the form of the answers for label'],
];

const ENVIRONMENT: readonly (readonly [string, string])[] = [
  ['SOURCE_DATE_EPOCH', 'the date that a PDF bears, in seconds since 1970; it bears none without'],
  ['STAYWRIGHT_DEBUG', '1 shows where in the program an error arose'],
];

const synopsis = (): string =>
  [
    `${bold('staywright')} ${italic('COMMAND')} ${escapeRoff('[FILE.svg | DIR/ | -] [options]')}`,
    `${bold('staywright help')} ${italic('COMMAND')}`,
    `${bold('staywright completion')} ${escapeRoff(SHELLS.join('|'))}`,
    bold('staywright --version'),
  ].join('\n.br\n');

const commandList = (entries: readonly CommandEntry[]): string[] => {
  const groups = [...new Set(entries.map(({ group }) => group))];
  return [
    ...groups.flatMap((group) => [
      `.SS ${escapeRoff(group)}`,
      ...entries.filter((one) => one.group === group).map(({ name, summary }) => listed(name, summary)),
    ]),
    '.SS In the shell',
    listed('completion', COMPLETION_SUMMARY),
  ];
};

const listed = (name: string, summary: string): string => entry(bold(name), escapeRoff(summary));

const commandBlocks = (command: Command): string[] => {
  const { name, summary, examples, notes, sample } = command;
  const options = optionsOf(command);
  const shared = options.filter((option) => option.shared).map(({ flags }) => /--[\w-]+/.exec(flags)![0]);
  return [
    `.SS ${escapeRoff(name)}`,
    `${bold(`staywright ${name}`)} ${escapeRoff(`${operandsOf(command)} [options]`)}`,
    paragraph(escapeRoff(`${summary[0]!.toUpperCase()}${summary.slice(1)}.`.replace(/\?\.$/, '?'))),
    ...options.filter((option) => !option.shared).map(optionEntry),
    paragraph(`${escapeRoff('Also: ')}${shared.map(bold).join(', ')}.`),
    ...notes.map((note) => paragraph(escapeRoff(note))),
    ...(sample === undefined ? [] : [verbatim(sample.join('\n'))]),
    ...examples.map(exampleBlock),
  ];
};

const optionEntry = ({ flags, says }: OptionHelp): string => entry(flagsText(flags), escapeRoff(says));

/** `-o, --output <file>`: what is typed in bold, what stands for a value in italics. */
const flagsText = (flags: string): string =>
  flags
    .split(/(<[^>]+>|--?[\w-]+)/)
    .map((part) => (part.startsWith('<') ? italic(part) : part.startsWith('-') ? bold(part) : escapeRoff(part)))
    .join('');

const exampleBlock = ({ says, line }: Example): string =>
  verbatim([...wrapWords(says, WIDTH - 2).map((part) => `# ${part}`), foldCommand(line, WIDTH)].join('\n'));
