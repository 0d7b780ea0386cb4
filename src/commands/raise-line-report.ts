import type { LineRaised } from '../alterations/raise-line.ts';
import type { Report } from '../cli/command.ts';
import { formatLength } from '../pattern/format-length.ts';
import type { Units } from '../pattern/pattern.ts';
import { heightsJson, heightTable } from './height-table.ts';
import { edgesLines, roundWords, shapeJson } from './shape-report.ts';

/** What raising levels did: heights and girths, the seams, what the old lines measure now, and the move itself last. */
export const raiseLineReport = (change: LineRaised, units: Units): Report => ({
  text: () => textOf(change, units),
  last: () => lastLine(change, units),
  json: () => jsonOf(change),
});

const textOf = (change: LineRaised, units: Units): string => {
  const lines = [
    ...edgesLines(change.edges, units),
    ...change.oldLines.map(
      ({ level, before, after }) =>
        `where ${level} lay: ${formatLength(after, units)} ${roundWords(change.girth[0]?.side)} now, ${formatLength(before, units)} before`,
    ),
  ];
  return `${heightTable(change.heights, change.girth, units)}${lines.map((line) => `${line}\n`).join('')}`;
};

const lastLine = ({ raised, holds, amount }: LineRaised, units: Units): string => {
  const done = `${amount > 0 ? 'Raised' : 'Lowered'} ${raised.join(' and ')} by ${formatLength(Math.abs(amount), units)}`;
  return `${done}; nothing moves at ${holds.above} and ${holds.below}.`;
};

const jsonOf = (change: LineRaised): Record<string, unknown> => ({
  raised: change.raised,
  amount_mm: change.amount,
  holds: [change.holds.above, change.holds.below],
  ...heightsJson(change.heights),
  old_lines: change.oldLines.map(({ level, before, after }) => ({ level, before_mm: before, after_mm: after })),
  ...shapeJson(change),
});
