import { usage } from '../errors.ts';
import type { Step } from './record-chain.ts';

/** As many characters of a hash as are shown where it stands beside others. */
const SHORT = 12;

/** As few characters as may be typed. */
const FEWEST = 6;

export const shortHash = (hash: string): string => hash.slice(0, SHORT);

/** Whether a text is meant as a hash, or as the beginning of one. */
export const isHash = (text: string): boolean => /^[0-9a-f]{1,64}$/i.test(text);

/** A version in a chain: the place of the change that made it, -1 for the original. */
interface Version {
  readonly place: number;
  readonly hash: string;
}

const versionsOf = (steps: readonly Step[]): Version[] =>
  [steps[0]?.change.before ?? null, ...steps.map(({ change }) => change.after)].flatMap((hash, at) =>
    hash === null ? [] : [{ place: at - 1, hash }],
  );

/**
 * Place of the change that made the version with that hash, -1 for the original; undefined where none has it. Of several the last, but
 * before changes that left the shape as it is, such as added allowance.
 */
export const versionWith = (steps: readonly Step[], hash: string): number | undefined => {
  const places = versionsOf(steps).flatMap((version) => (version.hash === hash ? [version.place] : []));
  return places.findLast((place, at) => at === 0 || steps[place]?.change.before !== hash);
};

/** As `versionWith`, from the beginning of a hash. Throws `usage` where it is too short, begins more than one, or none. */
export const findVersion = (steps: readonly Step[], typed: string, option: string): number => {
  const start = typed.toLowerCase();
  if (start.length < FEWEST) {
    throw usage(`'${typed}' is too short for a hash`, option, `type ${FEWEST} characters of it or more`);
  }
  const versions = versionsOf(steps);
  const hashes = [...new Set(versions.map(({ hash }) => hash).filter((hash) => hash.startsWith(start)))];
  if (hashes.length > 1) {
    throw usage(`${typed} begins more than one version`, option, `type more of it: ${named(hashes, steps)}`);
  }
  if (hashes.length === 1) return versionWith(steps, hashes[0]!)!;
  throw usage(`no version of this record has the hash ${typed}`, option, `near it are ${nearest(start, steps)}`);
};

/** How many versions are named for somebody to choose from. */
const FEW = 3;

/** The versions whose hashes begin most like what was typed, the later first among equals. */
export const nearest = (typed: string, steps: readonly Step[]): string => {
  const alike = (hash: string): number => [...hash].findIndex((letter, at) => letter !== typed[at]);
  const hashes = [...new Set(versionsOf(steps).map(({ hash }) => hash))];
  const sorted = hashes.toReversed().toSorted((a, b) => alike(b) - alike(a));
  return named(sorted.slice(0, FEW), steps);
};

const named = (hashes: readonly string[], steps: readonly Step[]): string =>
  hashes
    .map((hash) => {
      const step = steps[versionWith(steps, hash)!];
      return `${shortHash(hash)} (${step === undefined ? 'the original' : `step ${step.number}`})`;
    })
    .join(', ');
