import type { Command as Commander } from '@commander-js/extra-typings';
import type { Command } from './command.ts';

type Row = readonly [flags: string, says: string];

const DRAWING: readonly Row[] = [
  ['--scale <factor>', 'the drawing is this many times too small'],
  ['--test-square <length>', 'the side of a square that is drawn, to scale by'],
  ['--within <group>', 'read one group or layer: a size out of a nest of sizes'],
];

const SIDE: Row = ['--side <left|right>', 'only the panels of that side, once they are split'];

const OVERLAY: Row = ['--overlay <file>', 'also draw before and after: FILE.svg, FILE.png or FILE.pdf'];

const PAGES: readonly Row[] = [
  ['--paper <size>', 'a4 (default), letter, a0, roll:36in, 24inx36in'],
  ['--margin <length>', 'left free round each page (10mm)'],
  ['--overlap <length>', 'by which pages overlap (10mm)'],
];

const WORDS: readonly Row[] = [
  ['-n, --dry-run', 'report only, write nothing'],
  ['--json', 'the report as JSON, lengths in mm'],
  ['--units <mm|in>', "units of the report (default: the sheet's own)"],
  ['-q, --quiet', 'no report and no warnings'],
  ['--force', 'replace a file that staywright did not write'],
];

const THROUGH: Row = ['--through', 'pass the sheet on, report on standard error'];

const OUTPUT: Readonly<Record<Command['kind'], readonly Row[]>> = {
  sheet: [
    ['-o, --output <file>', 'write FILE.svg, or DIR/ with a sheet for each panel'],
    ['--pdf <file>', 'also write pages to print'],
    ...PAGES,
  ],
  drawing: [['-o, --output <file>', 'write FILE.svg']],
  measure: [['-o, --output <file>', 'write the sheet with the measures drawn on it'], THROUGH],
  look: [THROUGH],
  overlay: [['-o, --output <file>', 'also draw it: FILE.svg, FILE.png or FILE.pdf']],
  pdf: [['-o, --output <file>', 'write FILE.pdf'], ['--pdf <file>', 'the same'], ...PAGES],
  picture: [['-o, --output <file>', 'write FILE.svg, FILE.png or FILE.pdf']],
};

/** Options that would do nothing: a command that writes no file has none to spare or to replace, and pages are told in no unit. */
const IDLE: Readonly<Record<Command['kind'], readonly string[]>> = {
  sheet: [],
  drawing: [],
  measure: [],
  look: ['--dry-run', '--force'],
  overlay: [],
  pdf: ['--units'],
  picture: [],
};

/** Adds what a command of this kind shares with the others, after its own options. */
export const declareShared = (commander: Commander, { kind, reads, takesSide, drawsOverlay }: Command): Commander => {
  const rows = [
    ...(reads === 'drawings' || reads === 'both' ? DRAWING : []),
    ...(takesSide ? [SIDE] : []),
    ...OUTPUT[kind],
    ...(drawsOverlay ? [OVERLAY] : []),
    ...WORDS.filter(([flags]) => !IDLE[kind].some((idle) => flags.includes(idle))),
  ];
  for (const [flags, says] of rows) {
    if (!commander.options.some((own) => own.long !== undefined && flags.includes(own.long)))
      commander.option(flags, says);
  }
  return commander;
};

/** Options that say where and how to write or report, and so are no part of what was done to the pattern. */
export const IS_DELIVERY: ReadonlySet<string> = new Set(
  [...OUTPUT.sheet, OVERLAY, ...OUTPUT.measure, ...OUTPUT.pdf, ...WORDS].map(([flags]) => /--[\w-]+/.exec(flags)![0]),
);
