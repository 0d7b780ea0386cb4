import type { Report } from '../cli/command.ts';
import { countOf } from '../cli/count-of.ts';
import { VERSION } from '../cli/version.ts';
import type { Replay, Replayed } from './record-replay.ts';
import { stepJson } from './record-json.ts';
import { stepName } from './record-step.ts';

export interface Verified {
  readonly name: string;
  readonly replay: Replay;
  /** Hash of what was run from; null for a drawing. */
  readonly original: string | null;
  /** Hash of the sheet itself. */
  readonly sheet: string;
}

/** Whether every step gave what the record says, and the last one the sheet. */
export const isVerified = ({ replay, sheet }: Verified): boolean => replay.end === sheet;

/** A line for each step, more for the first that differs; the verdict comes last. */
export const verifyReport = (verified: Verified): Report => {
  const { name, replay, original, sheet } = verified;
  return {
    text: () =>
      replay.steps
        .map((replayed) => `${stepName(replayed.step)}: ${SAYS[replayed.result]}\n${detail(replayed)}`)
        .join(''),
    last: () => verdict(verified),
    json: () => ({
      name,
      original,
      steps: replay.steps.map(({ step, result, now, reason }) => ({
        ...stepJson(step),
        result,
        ...(now === undefined ? {} : { now }),
        ...(reason === undefined ? {} : { reason }),
      })),
      ends_with: replay.end ?? null,
      sheet,
      same: isVerified(verified),
    }),
  };
};

const SAYS: Readonly<Record<Replayed['result'], string>> = {
  same: 'same',
  joined: 'made apart, so that it is compared with those that follow',
  measured: 'drew its measures, nothing to run',
  differs: 'differs',
  refused: 'cannot be done again',
  broken: 'made on a sheet that was changed by other means',
  'not run': 'not run',
};

const detail = ({ step, result, now = 'a plain drawing', reason }: Replayed): string => {
  const { command, version, before, after } = step.change;
  if (result !== 'differs' && result !== 'refused' && result !== 'broken') return '';
  const started = result === 'broken' || (result === 'differs' && step.joint === 'after');
  const recorded = started ? (before ?? 'a plain drawing') : after;
  const lines = [
    `command   ${command}`,
    ...(result === 'refused'
      ? [`reason    ${reason}`]
      : [`recorded  ${recorded}${started ? ' before it' : ''}`, `now       ${now}`]),
    ...(version === VERSION ? [] : [`staywright ${version} did this step, and this is ${VERSION}`]),
  ];
  return lines.map((line) => `  ${oneLine(line)}\n`).join('');
};

const verdict = ({ name, replay, sheet }: Verified): string => {
  const wrong = replay.steps.find(({ result }) => result === 'differs' || result === 'refused' || result === 'broken');
  if (wrong !== undefined) {
    const first = stepName(wrong.step);
    if (wrong.result === 'refused') return `${oneLine(name)}: ${first}, cannot be done again.`;
    if (wrong.result === 'broken') return `${oneLine(name)}: before ${first}, the sheet was changed by other means.`;
    if (wrong.step.joint === 'after')
      return `${oneLine(name)}: before ${first}, the steps that were made apart give another shape together.`;
    return `${oneLine(name)}: ${first}, is the first that differs.`;
  }
  if (replay.end === sheet)
    return `${oneLine(name)}: ${countOf(replay.steps.length, 'step')} run again, and the sheet is the same: ${sheet}`;
  const joined = replay.steps.at(-1)?.result === 'joined';
  const why = joined
    ? 'the steps that were made apart give another shape together'
    : 'the sheet was changed by other means after them';
  return `${oneLine(name)}: the steps leave ${replay.end ?? 'a plain drawing'}, but the sheet is ${sheet}: ${why}.`;
};

// oxlint-disable-next-line no-control-regex
const oneLine = (text: string): string => text.replaceAll(/[\u0000-\u001f\u007f-\u009f]+/g, ' ');
