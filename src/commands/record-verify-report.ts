import type { Report } from '../cli/command.ts';
import { countOf } from '../cli/count-of.ts';
import { VERSION } from '../cli/version.ts';
import { wrapWords } from '../cli/wrap-words.ts';
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
        .join('') + endDetail(verified),
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

const WIDTH = 68;

const detail = ({ step, result, now = 'a plain drawing', reason }: Replayed): string => {
  const { command, version, before, after } = step.change;
  if (!isWrong(result)) return '';
  const [told, recorded] = isStart(step, result) ? ['before', before ?? 'a plain drawing'] : ['recorded', after];
  const rows = [
    ['command', command],
    ...(result === 'refused'
      ? [['reason', reason!]]
      : [
          [told, recorded],
          ['now', now],
        ]),
    ...(version === VERSION ? [] : [['done by', `staywright ${version}; this is ${VERSION}`]]),
  ];
  return rows.map(([what, says]) => row(what!, says!)).join('');
};

const row = (what: string, says: string): string =>
  wrapWords(oneLine(says), WIDTH)
    .map((line, at) => `  ${(at === 0 ? what : '').padEnd(10)}${line}\n`)
    .join('');

/** What the steps left, where the sheet is something else. */
const endDetail = ({ replay: { end }, sheet }: Verified): string =>
  end === undefined || end === sheet ? '' : row('left', end ?? 'a plain drawing') + row('the sheet', sheet);

const isWrong = (result: Replayed['result']): boolean =>
  result === 'differs' || result === 'refused' || result === 'broken';

/** Whether it is what a step starts from that is not as recorded. */
const isStart = ({ joint }: Replayed['step'], result: Replayed['result']): boolean =>
  result === 'broken' || (result === 'differs' && joint === 'after');

const verdict = ({ name, replay, sheet }: Verified): string => `${oneLine(name)}: ${found(replay, sheet)}.`;

const found = ({ steps, end }: Replay, sheet: string): string => {
  const wrong = steps.find(({ result }) => isWrong(result));
  if (wrong !== undefined) {
    const first = stepName(wrong.step);
    if (wrong.result === 'refused') return `${first}, cannot be done again`;
    if (wrong.result === 'broken') return `before ${first}, the sheet was changed by other means`;
    return isStart(wrong.step, wrong.result) ? `before ${first}, ${TOGETHER}` : `${first}, is the first that differs`;
  }
  if (end === sheet) return `${countOf(steps.length, 'step')} run again, and the sheet is the same`;
  return steps.at(-1)?.result === 'joined' ? TOGETHER : 'the sheet was changed by other means after its last step';
};

const TOGETHER = 'the steps that were made apart give another shape together';

// oxlint-disable-next-line no-control-regex
const oneLine = (text: string): string => text.replaceAll(/[\u0000-\u001f\u007f-\u009f]+/g, ' ');
