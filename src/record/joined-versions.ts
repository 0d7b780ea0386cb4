import type { Change } from './change.ts';
import { stepOf } from './step-of.ts';

/** Where two versions were joined: what each did since they parted, in order. */
export interface Joined {
  /** The number that the first change of each bears. */
  readonly step: number;
  readonly versions: readonly (readonly Change[])[];
}

/**
 * Every place in a record where versions that parted were joined again: changes that bear one number and were made on the same geometry.
 * Each version is followed as far as its hashes lead on.
 */
export const joinedVersions = (record: readonly Change[]): Joined[] => {
  const steps = record.map((change, at) => ({ change, step: stepOf(change, at) }));
  const isFirst = (at: number): boolean => {
    const { step, change } = steps[at]!;
    return steps.findIndex((other) => other.step === step && other.change.before === change.before) === at;
  };
  return steps.flatMap(({ change: first, step }, at) => {
    const firsts = steps.filter((other) => other.step === step && other.change.before === first.before);
    if (firsts.length < 2 || !isFirst(at)) return [];
    return [{ step, versions: firsts.map(({ change }) => followed(change, step, steps)) }];
  });
};

type Steps = readonly { readonly change: Change; readonly step: number }[];

const followed = (first: Change, step: number, steps: Steps): Change[] => {
  const version = [first];
  for (const next of steps) {
    const follows = next.step === step + version.length && next.change.before === version.at(-1)!.after;
    if (follows) version.push(next.change);
  }
  return version;
};
