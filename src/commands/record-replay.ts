import type { Command } from '../cli/command.ts';
import type { Job } from '../cli/job.ts';
import { parseCommandLine } from '../cli/parse-command-line.ts';
import type { InputFile, PictureFile } from '../cli/read-file.ts';
import { StaywrightError } from '../errors.ts';
import type { Units } from '../pattern/pattern.ts';
import { shortHash } from '../record/find-version.ts';
import { hashGeometry } from '../record/hash-geometry.ts';
import type { Step } from '../record/record-chain.ts';
import type { Sheet } from '../svg/sheet.ts';
import { writeSheet } from '../svg/write-sheet.ts';
import { recordedCommand } from './record-step.ts';

/** A version as a step reads it: the bytes of a sheet, or, to begin with, of a drawing or a scan. */
export interface Source {
  readonly file: InputFile;
  readonly picture: PictureFile;
  /** Null for what is no sheet yet. */
  readonly hash: string | null;
}

/** What became of a step that was run again. */
export interface Replayed {
  readonly step: Step;
  /**
   * `joined`: made apart and done after others, so that its own hash says nothing; `measured`: drew measures, nothing to run;
   * `refused`, with the reason; `broken`: made on a sheet that other means had changed.
   */
  readonly result: 'same' | 'joined' | 'measured' | 'differs' | 'refused' | 'broken' | 'not run';
  /** Hash of what it gave, or, where steps that were made apart give something else together, of what it was to start from. */
  readonly now?: string;
  readonly reason?: string;
}

export interface Replay {
  readonly steps: readonly Replayed[];
  /** Hash of what the steps left; absent where one of them went wrong. */
  readonly end?: string | null;
}

interface Replaying {
  readonly units: Units;
  readonly find: Job['find'];
  /** Sheets that parts may come from, by hash. */
  readonly others: ReadonlyMap<string, Source>;
}

/** Runs steps of a record again, from a version on, as far as they give what the record says. */
export const replayRecord = async (steps: readonly Step[], original: Source, means: Replaying): Promise<Replay> => {
  const known = new Map(means.others);
  const done: Replayed[] = [];
  let now = original;
  for (const [at, step] of steps.entries()) {
    if (now.hash !== null) known.set(now.hash, now);
    const { replayed, next } = await replayStep(step, now, { ...means, others: known });
    done.push(replayed);
    if (next === undefined)
      return { steps: [...done, ...steps.slice(at + 1).map((left) => ({ step: left, result: 'not run' as const }))] };
    now = next;
  }
  return { steps: done, end: now.hash };
};

/** One step, and what it made where that may be gone on from. */
const replayStep = async (
  step: Step,
  now: Source,
  means: Replaying,
): Promise<{ readonly replayed: Replayed; readonly next?: Source }> => {
  const { change, joint } = step;
  const started = now.hash === null ? {} : { now: now.hash };
  if (joint === 'broken' && now.hash !== change.before) return { replayed: { step, result: 'broken', ...started } };
  if (joint === 'after' && now.hash !== change.before) return { replayed: { step, result: 'differs', ...started } };
  try {
    const next = await runStep(step, now, means);
    if (next === undefined) return { replayed: { step, result: 'measured' }, next: now };
    if (now.hash !== change.before) return { replayed: { step, result: 'joined' }, next };
    if (next.hash === change.after) return { replayed: { step, result: 'same' }, next };
    return { replayed: { step, result: 'differs', now: next.hash! } };
  } catch (error) {
    if (!(error instanceof StaywrightError)) throw error;
    const reason = error.where === undefined ? error.message : `${error.where}: ${error.message}`;
    return { replayed: { step, result: 'refused', reason } };
  }
};

/** Stands for the other sheet among the words; no file is read by it. */
const OTHER = 'OTHER';

/** What a step makes of a version; undefined where it only drew measures. */
const runStep = async (step: Step, now: Source, { units, find, others }: Replaying): Promise<Source | undefined> => {
  const { name, words, measures } = recordedCommand(step, units);
  const command: Command = await find(name);
  if (measures) return undefined;
  if (command.kind !== 'sheet') throw new StaywrightError('input', 'makes no sheet', { where: name });
  const line = parseCommandLine(command, command.takesOther ? [OTHER, ...words] : words);
  if (line.input !== undefined) throw new StaywrightError('input', 'is no part of a record', { where: line.input });
  const { other: wanted } = step.change;
  const other = wanted === undefined ? undefined : others.get(wanted);
  if (command.takesOther && other === undefined) {
    const message = `takes parts of the sheet ${shortHash(wanted ?? '')}, which is not at hand; give it with --other`;
    throw new StaywrightError('input', message);
  }
  const outcome = await command.run(line.options, {
    ...(other === undefined ? {} : { other: `the sheet ${shortHash(wanted!)}` }),
    input: undefined,
    more: [],
    shared: line.shared,
    inputs: [],
    find,
    canonical: line.canonical,
    readFile: async (path) => (path === '-' ? now : (other ?? now)).file,
    findPicture: async () => now.picture,
  });
  return sourceOf(outcome.sheet!, `the sheet after step ${step.number}`);
};

/** A sheet as it would come out of a pipe. */
export const sourceOf = (sheet: Sheet, name: string): Source => {
  const bytes = Buffer.from(writeSheet(sheet));
  const identity = { name, device: 0, inode: 0 };
  return {
    file: { name, bytes, identity },
    picture: { name, source: bytes, beginning: bytes, identity },
    hash: hashGeometry(sheet.pattern),
  };
};
