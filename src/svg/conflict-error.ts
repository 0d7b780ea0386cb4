import { StaywrightError } from '../errors.ts';
import type { Change } from '../record/change.ts';
import { joinedVersions } from '../record/joined-versions.ts';
import { conflictPlaces, type ConflictPlace, type Conflicts } from './conflict-places.ts';
import { readRecord } from './read-record.ts';

/** Places named in one message: past these a reader looks for git's marks. */
const MOST_THINGS = 12;

/** The error for a file in which git left the marks of two versions; undefined where there are none. */
export const conflictError = (source: string, file: string): StaywrightError | undefined => {
  const conflicts = conflictPlaces(source);
  if (conflicts === undefined) return undefined;
  const where = `${file}:${conflicts.line}:1`;
  const { places } = conflicts;
  if (places.length === 0) {
    const hint = 'take out the lines that begin with <<<<<<<, =======, or >>>>>>>, once one version alone is left';
    return new StaywrightError('input', 'a mark of git stands here, where two versions met', { where, hint });
  }
  return new StaywrightError('input', `git could not join two versions, which differ in ${listOf(places)}`, {
    where,
    hint: cureOf(conflicts),
  });
};

/** `the record of changes (line 12); panel back (line 252): edges top, cb and level bust`. */
const listOf = (all: readonly ConflictPlace[]): string => {
  const places = all.slice(0, MOST_THINGS);
  const owners = [...new Set(places.map(({ panel }) => panel))];
  const parts = owners.flatMap((owner) => {
    const own = places.filter(({ panel }) => panel === owner);
    if (owner !== undefined) return [`panel ${owner} (line ${own[0]!.line}): ${thingsOf(own)}`];
    return [...new Map(own.map(({ thing, line }) => [thing, `${thing} (line ${line})`])).values()];
  });
  return [...parts, ...(all.length > places.length ? ['and more'] : [])].join('; ');
};

/** `edges top, cb and level bust`. */
const thingsOf = (places: readonly ConflictPlace[]): string => {
  const things = [...new Set(places.map(({ thing }) => thing))];
  const named = ['edge', 'level'].flatMap((kind) => {
    const names = things.filter((thing) => thing.startsWith(`${kind} `)).map((thing) => thing.slice(kind.length + 1));
    return names.length === 0 ? [] : [`${kind}${names.length > 1 ? 's' : ''} ${names.join(', ')}`];
  });
  return [...named, ...things.filter((thing) => !/^(?:edge|level) /.test(thing))].join(' and ');
};

/** Whether a version has a change among these lines of the record. */
const stands = (half: readonly string[], version: readonly Change[]): boolean =>
  version.some((change) => half.some((line) => line.includes(`"after":"${change.after}"`)));

/** One version whole, and on it once more what the other did. */
const cureOf = ({ record }: Conflicts): string => {
  const both = versionsIn([...record.both, ...record.first, ...record.second]);
  const typed = both?.map((version) => `staywright ${version.map(({ command }) => command).join(' | staywright ')}`);
  if (typed === undefined) {
    return "keep one version (git checkout --ours FILE, or --theirs) and run the other's commands on it again";
  }
  const [ours, theirs] = [record.first, record.second].map((half) =>
    both!.findIndex((version) => stands(half, version)),
  );
  if (ours === theirs || ours! < 0 || theirs! < 0) {
    return `keep one version (git checkout --ours FILE, or --theirs) and run on it again what the other did: ${typed.join(', or ')}`;
  }
  return `keep one version and run the other's commands on it: git checkout --ours FILE, then ${typed[theirs!]}; or git checkout --theirs FILE, then ${typed[ours!]}`;
};

/** What each of the two did since they parted; undefined where their records do not say. */
const versionsIn = (lines: readonly string[]): readonly (readonly Change[])[] | undefined => {
  try {
    const last = joinedVersions(readRecord(lines.join('\n'), ''))
      .toSorted((a, b) => a.step - b.step)
      .at(-1);
    return last?.versions.length === 2 ? last.versions : undefined;
  } catch (error) {
    if (error instanceof StaywrightError) return undefined;
    throw error;
  }
};
