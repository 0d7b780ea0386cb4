import { StaywrightError } from '../errors.ts';
import type { Change } from '../record/change.ts';
import { joinedVersions } from '../record/joined-versions.ts';
import { shellWord } from '../record/shell-word.ts';
import { shellWords } from '../record/shell-words.ts';
import type { Conflicts } from './conflict-places.ts';
import { readRecord } from './read-record.ts';

/**
 * What to type where git could not join two versions: one of them whole, and on it once more what the other did. A heading, then lines for
 * a shell. `isPart` says that the file holds one panel of a folder, which is then taken whole.
 */
export const conflictCure = ({ record }: Conflicts, file: string, isPart: boolean): string => {
  const means = isPart ? folderMeans(file) : fileMeans(file);
  const again = (version: readonly Change[]): string => `${chainOf(version, means)} && ${means.put}`;
  const versions = versionsIn([...record.both, ...record.first, ...record.second]);
  const [ours, theirs] = [record.first, record.second].map((half) =>
    versions.find((version) => version.some(({ after }) => half.some((line) => line.includes(`"after":"${after}"`)))),
  );
  const look = (taken: string): string => `  ${taken} && staywright record ${means.input}`;
  if (versions.length === 0) {
    return [
      'keep one version and do on it once more what the other did; what each did is told by',
      look(means.ours),
      look(means.theirs),
    ].join('\n');
  }
  const [first, second] = versions as [readonly Change[], readonly Change[]];
  if (ours === undefined || theirs === undefined || ours === theirs) {
    return [
      'keep one version, see what it holds already',
      look(means.ours),
      'and do on it what it lacks: either',
      `  ${again(first)}`,
      'or',
      `  ${again(second)}`,
      'then git commit',
    ].join('\n');
  }
  return [
    'keep one version and do on it once more what the other did: either',
    `  ${means.ours} && ${again(theirs)}`,
    'or',
    `  ${means.theirs} && ${again(ours)}`,
    'then git commit',
  ].join('\n');
};

interface Means {
  readonly ours: string;
  readonly theirs: string;
  readonly input: string;
  readonly output: string;
  /** Puts what was made in the place of what was read, and tells git. */
  readonly put: string;
}

const fileMeans = (path: string): Means => {
  const known = path === 'standard input' ? 'FILE.svg' : path.replace(/^-/, './-');
  const [input, output] = [shellWord(known), shellWord(`${known.replace(/\.svg$/i, '')}-both.svg`)];
  return {
    ours: `git checkout --ours ${input}`,
    theirs: `git checkout --theirs ${input}`,
    input,
    output,
    put: `mv ${output} ${input} && git add ${input}`,
  };
};

/** Of a folder git has joined some files already: it is taken as it was on one side. */
const folderMeans = (path: string): Means => {
  const at = path.lastIndexOf('/');
  const folder = path === 'standard input' ? 'DIR' : at < 0 ? '.' : path.slice(0, at).replace(/^-/, './-');
  const made = folder === '.' ? 'both' : `${folder}-both`;
  const [input, output] = [shellWord(`${folder}/`), shellWord(`${made}/`)];
  return {
    ours: `git checkout HEAD -- ${input}`,
    theirs: `git checkout MERGE_HEAD -- ${input}`,
    input,
    output,
    put: `cp ${output}*.svg ${input} && git add ${input}*.svg`,
  };
};

/** The commands of a version, from the file to a new one. */
const chainOf = (version: readonly Change[], { input, output }: Means): string => {
  const piped = version.map(({ command, other }, at) => {
    const [name, ...words] = command.split(' ');
    const sheets = [...(other === undefined ? [] : ['OTHER.svg']), ...(at === 0 ? [input] : [])];
    return `staywright ${[name, ...sheets, ...words].join(' ')}`;
  });
  return `${piped.join(' | ')} -o ${output}`;
};

/** What each of the two did since they parted, without what only drew measures; none where their records do not say. */
const versionsIn = (lines: readonly string[]): readonly (readonly Change[])[] => {
  try {
    const last = joinedVersions(readRecord(lines.join('\n'), ''))
      .toSorted((a, b) => a.step - b.step)
      .at(-1);
    const versions = (last?.versions ?? []).map((version) =>
      version.filter(({ command }) => !command.split(' ').includes('--through')),
    );
    // A line that somebody may paste holds nothing but words.
    const typable = versions.every((version) => version.every(({ command }) => shellWords(command) !== undefined));
    return typable && versions.length === 2 && versions.every((version) => version.length > 0) ? versions : [];
  } catch (error) {
    if (error instanceof StaywrightError) return [];
    throw error;
  }
};
