import type { Change } from './change.ts';
import type { Step } from './record-chain.ts';
import { stepOf } from './step-of.ts';
import type { Version } from './versions-of.ts';

/**
 * Of the versions of a chain the last that another sheet has come from, or is: every change that it holds stands in the other's record too.
 * The other's own `hash` tells what other means made of a step's sheet. Undefined where the two have nothing in common, or nothing but
 * a plain drawing, of which nothing is known.
 */
export const sharedVersion = (
  versions: readonly Version[],
  chain: readonly Step[],
  other: readonly Change[],
  hash?: string,
): Version | undefined => {
  const theirs = new Set(other.map((change, at) => keyOf(stepOf(change, at), change)));
  const passed = new Set([hash, ...other.flatMap(({ before, after }) => [before, after])]);
  const shared = (place: number): boolean => theirs.has(keyOf(chain[place]!.number, chain[place]!.change));
  return versions
    .filter((version) => version.hash !== null && passed.has(version.hash) && [...version.holds].every(shared))
    .reduce<Version | undefined>(
      (last, version) => (version.holds.size < (last?.holds.size ?? 0) ? last : version),
      undefined,
    );
};

/** A change is known again by its number and by what it did. */
const keyOf = (number: number, { command, before, after, other }: Change): string =>
  JSON.stringify([number, command, before, after, other ?? null]);
