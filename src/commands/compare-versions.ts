import { splitSides } from '../alterations/split-sides.ts';
import type { Job } from '../cli/job.ts';
import { takeSide } from '../cli/one-side.ts';
import { readSheet } from '../cli/read-sheet.ts';
import type { VersionNames } from '../measure/compare/refuse-unlike.ts';
import type { Finding } from '../pattern/finding.ts';
import type { Units } from '../pattern/pattern.ts';
import type { Change } from '../record/change.ts';
import { hashGeometry } from '../record/hash-geometry.ts';
import type { Sheet } from '../svg/sheet.ts';

/** One of the two sheets that are compared. */
export interface Version {
  readonly sheet: Sheet;
  /** The name of its file or folder, without the path; absent where it came from standard input. */
  readonly file?: string;
  /** Of the geometry as it was read. */
  readonly hash: string;
  /** Commands that its record has and the other's lacks. */
  readonly own: readonly string[];
}

export interface Versions {
  readonly before: Version;
  readonly after: Version;
  readonly names: VersionNames;
  readonly units: Units;
  /** One comes from the other, or both from a third: their panels never left their own coordinates. */
  readonly sharesFrame: boolean;
  readonly findings: readonly Finding[];
}

/** The hashes of all that a sheet was since its panels got their coordinates: `label` gives them new ones. */
const hashesOf = (record: readonly Change[], hash: string): Set<string | null> => {
  const labelled = record.findLastIndex(({ command }) => /^label\b/.test(command));
  const since = record.slice(labelled + 1).flatMap(({ before, after }) => [before, after]);
  return new Set(
    [...since, ...(record[labelled] ? [record[labelled].after] : []), hash].filter((each) => each !== null),
  );
};

const keyOf = ({ command, after }: Change): string => JSON.stringify([command, after]);

/** The changes of one record that the other lacks. */
const ownCommands = (record: readonly Change[], other: readonly Change[]): string[] => {
  const known = new Set(other.map(keyOf));
  return record.filter((change) => !known.has(keyOf(change))).map(({ command }) => command);
};

const splitNote = (where: string): Finding => ({
  weight: 'note',
  kind: 'split-to-compare',
  where,
  message: 'its panels are pairs: compared as left and right, as split-sides would make them',
});

const unitsNote = (where: string, its: Units, shown: Units): Finding => ({
  weight: 'note',
  kind: 'other-units',
  where,
  message: `its own reports are in ${wordFor(its)}; this one is in ${wordFor(shown)}`,
});

/** A half pattern as left and right panels, where the sheet beside it has both. */
export const splitLike = (sheet: Sheet, beside: Sheet): Sheet =>
  sheet.pattern.pieces === 'pairs' && beside.pattern.pieces === 'single'
    ? { ...sheet, pattern: splitSides(sheet.pattern).pattern }
    : sheet;

/** The two sheets that a job names, the half pattern of the two split where the other is whole, and one side of both where only that was asked for. */
export const readVersions = async (job: Job): Promise<Versions> => {
  const { side, ...shared } = job.shared;
  const [first, second] = [
    await readSheet({ ...job, shared, input: job.other }),
    await readSheet({ ...job, shared, input: job.input }),
  ];
  const names = { before: nameOf(job.other), after: nameOf(job.input) };
  const [one, other] = [first.sheet, second.sheet];
  const hashes = [one, other].map(({ pattern }) => hashGeometry(pattern));
  const known = hashesOf(one.record, hashes[0]!);
  const pieces = new Set([one.pattern.pieces, other.pattern.pieces]);
  const ready = (sheet: Sheet, beside: Sheet): Sheet => {
    const split = splitLike(sheet, beside);
    return side === undefined ? split : takeSide(split, side);
  };
  const pairs = pieces.size < 2 ? [] : [one.pattern.pieces === 'pairs' ? names.before : names.after];
  const units = second.units;
  const [itsUnits, ownUnits] = [one.pattern.units, other.pattern.units];
  return {
    before: {
      sheet: ready(one, other),
      ...fileOf(job.other),
      hash: hashes[0]!,
      own: ownCommands(one.record, other.record),
    },
    after: {
      sheet: ready(other, one),
      ...fileOf(job.input),
      hash: hashes[1]!,
      own: ownCommands(other.record, one.record),
    },
    names,
    units,
    sharesFrame: [...hashesOf(other.record, hashes[1]!)].some((hash) => known.has(hash)),
    findings: [
      ...first.findings,
      ...second.findings,
      ...pairs.map(splitNote),
      ...(itsUnits === ownUnits ? [] : [unitsNote(names.before, itsUnits, units)]),
    ],
  };
};

const fileOf = (path = '-'): { readonly file?: string } => {
  const file = path.split(/[/\\]/).findLast((part) => part !== '');
  return file === undefined || file === '-' ? {} : { file };
};

const nameOf = (path: string | undefined): string => (path === undefined || path === '-' ? 'standard input' : path);

const wordFor = (units: Units): string => (units === 'in' ? 'inches' : units);
