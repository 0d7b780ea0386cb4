import type { Step } from './record-chain.ts';

/** A version of a sheet, as its record knows it. */
export interface Version {
  /** Null for a plain drawing. */
  readonly hash: string | null;
  /** Places in the record of the changes that it holds. */
  readonly holds: ReadonlySet<number>;
  /** The original, what a step made, what steps that were made apart gave together, or what other means made of a step's sheet. */
  readonly by: 'origin' | 'step' | 'joining' | 'other means';
  /** The step that made it or, where none did, the first that was made on it; absent for the original, and for a sheet just joined. */
  readonly step?: Step;
}

const firstPlaces = (count: number): ReadonlySet<number> => new Set(Array.from({ length: count }, (_, place) => place));

/**
 * Every version in a chain, in order. Of a chain that ends in steps that were made apart only the sheet itself knows its `end`.
 */
export const versionsOf = (steps: readonly Step[], end?: string): readonly [Version, ...Version[]] => {
  const made = steps.flatMap((step, at): Version[] => {
    const version: Version = { hash: step.change.after, holds: step.holds, by: 'step', step };
    if (step.joint !== 'after' && step.joint !== 'broken') return [version];
    const by = step.joint === 'after' ? 'joining' : 'other means';
    return [{ hash: step.change.before, holds: firstPlaces(at), by, step }, version];
  });
  const joined: Version[] =
    end === undefined || steps.at(-1)?.joint !== 'beside'
      ? []
      : [{ hash: end, holds: firstPlaces(steps.length), by: 'joining' }];
  return [{ hash: steps[0]?.change.before ?? null, holds: new Set(), by: 'origin' }, ...made, ...joined];
};
