import { usage } from '../errors.ts';
import type { Version } from './versions-of.ts';

/** As many characters of a hash as are shown where it stands beside others. */
const SHORT = 12;

/** As few characters as may be typed. */
const FEWEST = 6;

export const shortHash = (hash: string): string => hash.slice(0, SHORT);

/** Whether a text is meant as a hash, or as the beginning of one. */
export const isHash = (text: string): boolean => /^[0-9a-f]{1,64}$/i.test(text);

/**
 * The version with that hash; undefined where none has it. Of several the last, but before changes that left the shape as it is, such as
 * added allowance.
 */
export const versionWith = (versions: readonly Version[], hash: string): Version | undefined =>
  versions
    .filter((version) => version.hash === hash)
    .findLast(({ by, step }, at) => at === 0 || by !== 'step' || step?.change.before !== hash);

/** As `versionWith`, from the beginning of a hash. Throws `usage` where it is too short, begins more than one, or none. */
export const findVersion = (versions: readonly Version[], typed: string, option: string): Version => {
  const start = typed.toLowerCase();
  if (start.length < FEWEST) {
    throw usage(`'${typed}' is too short for a hash`, option, `type ${FEWEST} characters of it or more`);
  }
  const hashes = hashesOf(versions).filter((hash) => hash.startsWith(start));
  if (hashes.length > 1) {
    throw usage(`${typed} begins more than one version`, option, `type more of it: ${named(hashes, versions)}`);
  }
  if (hashes.length === 1) return versionWith(versions, hashes[0]!)!;
  const outOfGit = `git's own hashes are others: git show ${typed}:FILE.svg > before.svg, then ${option} before.svg`;
  const known = `${outOfGit}; the last versions here are\n${lastVersions(versions)}`;
  throw usage(`no version of this record begins with ${typed}`, option, known);
};

/** Every hash once, in order. */
const hashesOf = (versions: readonly Version[]): string[] => [
  ...new Set(versions.flatMap(({ hash }) => (hash === null ? [] : [hash]))),
];

/** How many versions are named for somebody to choose from. */
const FEW = 4;

/** The last versions, one a line, the very last below: short hash, and what made it. */
export const lastVersions = (versions: readonly Version[]): string =>
  hashesOf(versions)
    .slice(-FEW)
    .map((hash) => {
      const version = versionWith(versions, hash)!;
      const command = version.by === 'step' ? `: ${shortened(version.step!.change.command)}` : '';
      return `  ${shortHash(hash)}  ${whichVersion(version)}${command}`;
    })
    .join('\n');

const LONGEST = 48;

const shortened = (command: string): string => {
  const letters = [...command.replaceAll(/\s+/g, ' ')];
  return letters.length > LONGEST ? `${letters.slice(0, LONGEST - 3).join('')}...` : letters.join('');
};

const named = (hashes: readonly string[], versions: readonly Version[]): string =>
  hashes.map((hash) => `${shortHash(hash)} (${whichVersion(versionWith(versions, hash)!)})`).join(', ');

/** `step 3`, `joined before step 5`: which of its record's versions it is. */
export const whichVersion = ({ by, step }: Version): string => {
  if (by === 'origin') return 'the original';
  if (step === undefined) return 'joined last';
  if (by === 'step') return `step ${step.number}`;
  return by === 'joining' ? `joined before step ${step.number}` : `changed by other means before step ${step.number}`;
};
