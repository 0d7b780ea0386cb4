import type { Goal } from './cases.ts';
import type { TraceScore } from './score-trace.ts';

export interface ScoreRow {
  readonly name: string;
  readonly score: TraceScore;
  readonly goal?: Goal;
  readonly seconds?: number;
}

const HEAD = [
  'scan',
  'rms',
  '(goal)',
  'max',
  '(goal)',
  'corner',
  '(goal)',
  'corners -/+/x',
  'segments',
  'notch',
  'grain',
  'waist',
  'marks -/+',
  'panels -/+',
  's',
];

const mm = (value: number): string => value.toFixed(4);
const goalOf = (value: number | undefined): string => (value === undefined ? '' : `(${value.toFixed(3)})`);

const flag = (value: number, goal: number | undefined): string => mm(value) + (value > (goal ?? Infinity) ? '!' : ' ');

/** The scores as an aligned table, the goals beside them: - is missing, + is invented, x is doubled; a ! marks a goal not met. */
export const scoreTable = (rows: readonly ScoreRow[]): string => {
  const body = rows.map(({ name, score: s, goal, seconds }) => [
    name,
    flag(s.rms, goal?.rms),
    goalOf(goal?.rms),
    flag(s.max, goal?.max),
    goalOf(goal?.max),
    flag(s.corner, goal?.corner),
    goalOf(goal?.corner),
    `${s.missedCorners}/${s.inventedCorners}/${s.doubledCorners}`,
    `${s.segments}`,
    mm(s.notch),
    mm(s.grain),
    mm(s.waist),
    `${s.missedMarks}/${s.inventedMarks}`,
    `${s.missing.length}/${s.extra}`,
    seconds === undefined ? '' : seconds.toFixed(2),
  ]);
  const widths = HEAD.map((title, i) => Math.max(title.length, ...body.map((row) => row[i]!.length)));
  return [HEAD, ...body]
    .map((row) =>
      row
        .map((cell, i) => (i === 0 ? cell.padEnd(widths[i]!) : cell.padStart(widths[i]!)))
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
};
