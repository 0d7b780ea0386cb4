import type { Change } from './change.ts';
import { stepOf } from './step-of.ts';

/**
 * How a change hangs on those above it: it `follows` them; it was made `beside` them on an earlier version, and joined with them since; it
 * is the first `after` such, on what they give together; or the chain is `broken`, since the sheet was changed by other means.
 */
type Joint = 'follows' | 'beside' | 'after' | 'broken';

/** One change in its chain. */
export interface Step {
  readonly number: number;
  readonly change: Change;
  readonly joint: Joint;
  /** Places in the record of all changes that its own version holds, itself among them. */
  readonly holds: ReadonlySet<number>;
}

/** The changes of a record, each with how it hangs on those above it. */
export const recordChain = (record: readonly Change[]): Step[] => {
  const steps: Step[] = [];
  // Where the chain stands: unknown while changes that were made apart lie side by side.
  let standing: string | null | undefined = record[0]?.before;
  for (const [at, change] of record.entries()) {
    const joint = jointOf(change, record.slice(0, at), standing);
    const under = joint === 'beside' ? heldBy(change.before, steps) : steps.map((_, earlier) => earlier);
    steps.push({ number: stepOf(change, at), change, joint, holds: new Set([...under, at]) });
    standing = joint === 'beside' ? undefined : change.after;
  }
  return steps;
};

const jointOf = ({ before }: Change, earlier: readonly Change[], standing: string | null | undefined): Joint => {
  if (before === standing) return 'follows';
  if (earlier.some((change) => change.before === before || change.after === before)) return 'beside';
  return standing === undefined ? 'after' : 'broken';
};

/** What the version with that hash holds; it is the original where no change made it. */
const heldBy = (hash: string | null, steps: readonly Step[]): Iterable<number> =>
  steps.findLast(({ change }) => change.after === hash)?.holds ?? [];

/** Hash of what the chain leaves; unknown where it ends in changes that were made apart and joined. */
export const chainEnd = (steps: readonly Step[]): string | undefined => {
  const last = steps.at(-1);
  return last?.joint === 'beside' ? undefined : last?.change.after;
};

/** The changes that a version does not hold. */
export const stepsSince = (steps: readonly Step[], { holds }: Pick<Step, 'holds'>): Step[] =>
  steps.filter((_, at) => !holds.has(at));
