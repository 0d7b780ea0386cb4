import type { AmountAt } from '../alterations/seams/amount-along.ts';
import type { SeamMove, SeamsChange } from '../alterations/seams/seam-figures.ts';
import type { MoveSeams } from '../alterations/move-seams-options.ts';
import type { Report } from '../cli/command.ts';
import { countOf } from '../cli/count-of.ts';
import { formatLength } from '../pattern/format-length.ts';
import { levelNames, sideOf } from '../pattern/look-up.ts';
import type { Pattern, Units } from '../pattern/pattern.ts';
import { edgesLines, girthTable, roundWords, shapeJson } from './shape-report.ts';

/** What taking in or letting out did, in a maker's words: the girths, the edges, each line, and the whole round the body last. */
export const moveReport = (change: SeamsChange, what: MoveSeams, pattern: Pattern, units: Units): Report => ({
  text: () => textOf(change, what, pattern, units),
  last: () => wholeLine(change, units),
  json: () => jsonOf(change),
});

const textOf = (change: SeamsChange, what: MoveSeams, pattern: Pattern, units: Units): string => {
  const lines = [
    ...edgesLines(change.edges, units),
    ...change.seams.map((seam) => seamLine(seam, change, pattern, units)),
    ...(what.by.kind === 'girth' && what.by.share !== undefined
      ? ['The girth is shared out by seam; each part is divided equally over the lines of its seam.']
      : []),
    ...(what.by.kind === 'at' && what.by.at.length === 1 ? [oneAmountLine(what.by.at[0]!, pattern)] : []),
  ];
  const columns = change.seams.map(({ seam, levels }) => ({
    head: `${seam} moves`,
    mm: (level: string) => levels.find((row) => row.level === level)?.amount ?? 0,
  }));
  return `${girthTable(change.girth, units, columns)}\n${lines.join('\n')}\n`;
};

/** One amount holds from top to bottom, which who types it may not mean. */
const oneAmountLine = ({ level }: AmountAt, pattern: Pattern): string => {
  const other = ['waist', ...levelNames(pattern)].find((name) => name !== level.name) ?? 'bottom';
  return `With one --at the whole seam moves by its amount; add --at ${other}=0mm where nothing should move.`;
};

/** `cb: each line moves at most 12.70 mm inwards, at bust, along the level; 1 line on each half, 2 round the body` */
const seamLine = (move: SeamMove, { direction, square }: SeamsChange, pattern: Pattern, units: Units): string => {
  const peak = greatest(move.levels, ({ amount }) => amount);
  const isMost = (amount: number): boolean => formatLength(amount, units) === formatLength(move.most, units);
  const even = move.levels.every(({ amount }) => isMost(amount));
  const measured = square ? 'at right angles to the seam' : 'along the level';
  const drawn = countOf(move.linesDrawn, 'line');
  const lines =
    pattern.pieces === 'pairs'
      ? `${drawn} on each half, ${move.linesRoundBody} round the body`
      : `${drawn} ${sideOf(pattern) === undefined ? 'round the body' : `on the ${sideOf(pattern)} half`}`;
  const way = (direction === 'in') === move.most > 0 ? 'inwards' : 'outwards';
  const size = formatLength(Math.abs(move.most), units);
  const place = peak !== undefined && isMost(peak.amount) ? `at ${peak.level}` : 'at the end of the seam';
  const most = even ? `${size} ${way}` : `at most ${size} ${way}, ${place},`;
  return `${move.seam}: each line moves ${most} ${measured}; ${lines}`;
};

const wholeLine = ({ direction, girth }: SeamsChange, units: Units): string => {
  const changes = girth.map(({ level, before, after }) => ({ level, by: after - before }));
  const peak = greatest(changes, ({ by }) => by);
  if (peak === undefined || !/[1-9]/.test(formatLength(peak.by, units))) {
    return direction === 'in' ? 'Taken in beyond the named levels only.' : 'Let out beyond the named levels only.';
  }
  const done = peak.by < 0 ? 'Taken in' : 'Let out';
  const shown = changes.map(({ by }) => formatLength(by, units));
  const place = shown.every((text) => text === shown[0]) ? 'at every level' : `at ${peak.level}`;
  return `${done} ${formatLength(Math.abs(peak.by), units)} ${roundWords(girth[0]?.side)} ${place}.`;
};

const greatest = <Row>(rows: readonly Row[], size: (row: Row) => number): Row | undefined =>
  rows.length === 0 ? undefined : rows.reduce((best, row) => (Math.abs(size(row)) > Math.abs(size(best)) ? row : best));

const jsonOf = (change: SeamsChange): Record<string, unknown> => ({
  direction: change.direction,
  measured: change.square ? 'square' : 'level',
  seams: change.seams.map(({ seam, linesDrawn, linesRoundBody, levels }) => ({
    seam,
    lines_drawn: linesDrawn,
    lines_round_body: linesRoundBody,
    levels: levels.map(({ level, amount, roundBody }) => ({
      level,
      amount_mm: amount,
      ...(roundBody === undefined ? {} : { round_body_mm: roundBody }),
    })),
  })),
  ...shapeJson(change),
  corners: change.ends.map(({ panel, corner, distance }) => ({ panel, corner, moved_mm: distance })),
});
