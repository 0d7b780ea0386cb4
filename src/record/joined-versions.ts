import type { Change } from './change.ts';
import { stepOf } from './step-of.ts';

/** Where two versions were joined: what each did since they parted, in order. */
export interface Joined {
  /** The number that the first change of each bears. */
  readonly step: number;
  readonly versions: readonly (readonly Change[])[];
}

const keyOf = (step: number, before: string | null): string => `${step} ${before}`;

/**
 * Every place in a record where versions that parted were joined again: changes that bear one number and were made on the same geometry.
 * Each version is followed as far as its hashes lead on, or until it parts again; no change is of two versions.
 */
export const joinedVersions = (record: readonly Change[]): Joined[] => {
  const made = new Map<string, Change[]>();
  record.forEach((change, at) => {
    const key = keyOf(stepOf(change, at), change.before);
    const others = made.get(key);
    if (others === undefined) made.set(key, [change]);
    else others.push(change);
  });
  const followed = new Set<Change>();
  const versionFrom = (first: Change, step: number): Change[] => {
    const version = [first];
    for (;;) {
      const [next, ...others] = made.get(keyOf(step + version.length, version.at(-1)!.after)) ?? [];
      if (next === undefined || others.length > 0 || followed.has(next)) return version;
      followed.add(next);
      version.push(next);
    }
  };
  return record.flatMap((first, at) => {
    const step = stepOf(first, at);
    const firsts = made.get(keyOf(step, first.before))!;
    if (firsts.length < 2 || firsts[0] !== first) return [];
    return [{ step, versions: firsts.map((change) => versionFrom(change, step)) }];
  });
};
