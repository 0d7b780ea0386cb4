import { defineCommand, type Report } from '../cli/command.ts';
import { GIT_SETUP } from '../cli/git-setup.ts';
import type { Job } from '../cli/job.ts';
import { wholeSheet } from '../cli/one-side.ts';
import { readSheet, type SheetRead } from '../cli/read-sheet.ts';
import { StaywrightError, usage } from '../errors.ts';
import { describePattern, type Fact } from '../measure/describe-pattern.ts';
import { formatLength } from '../pattern/format-length.ts';
import type { Units } from '../pattern/pattern.ts';
import type { Change } from '../record/change.ts';
import { shortHash } from '../record/find-version.ts';
import { hashGeometry } from '../record/hash-geometry.ts';
import { stepOf } from '../record/step-of.ts';
import type { Sheet } from '../svg/sheet.ts';

export const describe = defineCommand({
  name: 'describe',
  summary: 'lengths, girths and angles as stable lines, for git diff',
  kind: 'look',
  readsNothingWith: ['gitSetup'],
  examples: [
    { says: 'all that can be said of a sheet', line: 'staywright describe net.svg' },
    {
      says: 'what to tell git, so that git diff speaks of sheets in these words',
      line: 'staywright describe --git-setup',
    },
    {
      says: 'every length that one command changed',
      line: 'staywright let-out net.svg --seam side --amount 6mm | staywright describe',
    },
  ],
  notes: [
    'One fact a line, always in the same order: panels from centre front to centre back with their edges, corners, levels and notches, then seams, then girths, then the version (the hash of the shape, which record --since takes), then the changes of the record. Of a sheet that holds one panel of a folder neither girths nor version are told.',
  ],
  declare: (commander) =>
    commander
      .option('--as-is', 'give out as it is what is no sheet, for git')
      .option('--git-setup', 'print what to tell git, and do nothing'),
  run: async (options, job) => {
    if (options.gitSetup === true) return { report: gitSetup(job), findings: [] };
    const read = options.asIs === true ? await readOrAsRead(job) : await readSheet(job);
    if (read instanceof Uint8Array) return { asRead: read, report: NOTHING, findings: [] };
    const { sheet, units, findings } = read;
    const facts = [
      ...describePattern(sheet.pattern, sheet.part),
      ...(sheet.part === undefined ? [versionOf(sheet)] : []),
    ];
    return {
      sheet,
      report: {
        text: () =>
          [
            ...facts.map((fact) => `${fact.of}: ${fact.what} ${shown(fact.value, units)}\n`),
            ...sheet.record.map((change, at) => `change ${stepOf(change, at)}: ${oneLine(change.command)}\n`),
          ].join(''),
        json: () => ({ facts: facts.map(jsonOf), changes: sheet.record.map(changeOf) }),
      },
      findings: options.asIs === true ? [] : findings,
    };
  },
});

/** Tells of every change, however small: figures are rounded. */
const versionOf = (sheet: Sheet): Fact => ({
  of: 'pattern',
  what: 'version',
  value: { word: shortHash(hashGeometry(wholeSheet(sheet).pattern)) },
});

const NOTHING: Report = { text: () => '', json: () => ({}) };

const gitSetup = ({ shared }: Job): Report => {
  if (shared.through === true) throw usage('there is no sheet to pass on', '--through', 'leave out --git-setup');
  return { text: () => GIT_SETUP, json: () => ({ script: GIT_SETUP }) };
};

/** The sheet, or the bytes of what is none; a file that cannot be read at all is still refused. */
const readOrAsRead = async (job: Job): Promise<SheetRead | Uint8Array> => {
  const { bytes } = await job.readFile(job.input ?? '-');
  try {
    return await readSheet(job);
  } catch (error) {
    if (error instanceof StaywrightError && error.code === 'input') return bytes;
    throw error;
  }
};

/** A command may hold a name with a line end in it. */
const oneLine = (text: string): string => text.replaceAll(/\s+/g, ' ');

const changeOf = (change: Change, at: number): Record<string, unknown> => ({
  step: stepOf(change, at),
  command: change.command,
});

const shown = (value: Fact['value'], units: Units): string => {
  if ('mm' in value) return formatLength(value.mm, units);
  if ('degrees' in value) return `${(Math.round(value.degrees * 100) / 100 || 0).toFixed(2)} degrees`;
  return 'count' in value ? String(value.count) : value.word;
};

const jsonOf = ({ of, what, value }: Fact): Record<string, unknown> => {
  if ('mm' in value) return { of, what, length_mm: value.mm };
  if ('degrees' in value) return { of, what, angle_degrees: value.degrees };
  return 'count' in value ? { of, what, count: value.count } : { of, what, word: value.word };
};
