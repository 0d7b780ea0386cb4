import { defineCommand } from '../cli/command.ts';
import { countOf } from '../cli/count-of.ts';
import { findingText } from '../cli/error-text.ts';
import { wholeSheet } from '../cli/one-side.ts';
import { readSheet } from '../cli/read-sheet.ts';
import { checkPattern } from '../pattern/check-pattern.ts';
import type { Finding } from '../pattern/finding.ts';
import type { Joined } from '../record/joined-versions.ts';
import { lastJoined } from '../record/last-joined.ts';
import { recordChain } from '../record/record-chain.ts';
import { shellWord } from '../record/shell-word.ts';
import type { Sheet } from '../svg/sheet.ts';
import { changedSince } from './changed-since.ts';

export const check = defineCommand({
  name: 'check',
  summary: 'everything that can be wrong with a sheet, and its cure',
  kind: 'look',
  examples: [
    { says: 'is this sheet sound?', line: 'staywright check net.svg' },
    {
      says: 'stop a script where an alteration left something wrong',
      line: 'staywright let-out net.svg --seam side --amount 6mm | staywright check',
    },
  ],
  notes: [
    'Looks for outlines that are open or cross themselves, missing levels, seams whose two edges or notches differ by more than 1.5 mm, notches off their edge, and panels so small or large that the scale must be wrong.',
    'Two versions that git has joined are told as a note until the next step is done on both; a note changes no exit code. Where both changed the same lines, git leaves its marks in the sheet, which then cannot be read: the error names the panels and edges, and what to do.',
    'Exit code 0: nothing is wrong; 1: something was found; 2: the sheet could not be read.',
  ],
  declare: (commander) => commander,
  run: async (_options, job) => {
    const { sheet, findings: reading } = await readSheet(job);
    const found = checkPattern(sheet.pattern);
    const joined = lastJoined(sheet.record).map((each) => joinedNote(each, job.input));
    const all = [...reading, ...found, ...joined, ...handNotes(sheet), ...lostNotes(sheet)];
    const wrong = all.filter(({ weight }) => weight !== 'note');
    return {
      sheet,
      report: {
        text: () => `${all.map(findingText).join('')}${verdict(wrong, sheet.pattern.name)}\n`,
        json: () => ({
          name: sheet.pattern.name,
          panels: sheet.pattern.panels.length,
          sound: wrong.length === 0,
          findings: all,
        }),
      },
      findings: [],
      found: wrong.length > 0,
    };
  },
});

const verdict = (wrong: readonly Finding[], name: string): string => {
  if (wrong.length === 0) return `${name}: nothing is wrong`;
  const errors = wrong.filter(({ weight }) => weight === 'error').length;
  return `${name}: ${countOf(errors, 'error')}, ${countOf(wrong.length - errors, 'warning')}`;
};

/** Right where somebody drew on the sheet, and a puzzle where nobody remembers it. */
const handNotes = (sheet: Sheet): Finding[] =>
  changedSince(wholeSheet(sheet), recordChain(sheet.record)).map((changed) => ({
    weight: 'note',
    kind: 'record',
    ...changed,
    cure: 'compare it with the version before: a drawing program may have moved more than was meant',
  }));

/** Whatever makes a sheet begins its record: one without has lost it. */
const lostNotes = ({ pattern, record }: Sheet): Finding[] =>
  record.length > 0
    ? []
    : [
        {
          weight: 'note',
          kind: 'record',
          where: pattern.name,
          message: 'holds no record of changes: its history was lost, and record cannot tell or verify it',
          cure: 'a drawing program may have dropped it: go back to the sheet as staywright wrote it',
        },
      ];

/** Git joins versions without a word where they changed different lines: worth knowing before cloth is cut. */
const joinedNote = ({ step, versions }: Joined, input = '-'): Finding => {
  const typed = versions.map((version) => version.map(({ command }) => command).join(', then '));
  return {
    weight: 'note',
    kind: 'versions-joined',
    where: `record, change ${step}`,
    message: `${countOf(versions.length, 'version')} made apart were joined here: ${typed.join('; and ')}`,
    cure: `neither maker has seen both changes together; whether both are in the shape is told by: staywright record ${input === '-' ? 'FILE' : shellWord(input)} --verify ORIGINAL`,
  };
};
