import type { GapReport } from '../measure/gap.ts';
import { formatLength } from '../pattern/format-length.ts';
import { SIDES, type Side } from '../pattern/panel.ts';
import type { Units } from '../pattern/pattern.ts';
import { roundWords } from './shape-report.ts';

/** `Needed round the body: waist let out 12.00 mm; ...`, with a line for each half where they were measured apart. */
export const neededLines = (rows: GapReport['rows'], units: Units, side: Side | undefined): string => {
  const needs = rows.map(({ level, needs: mm }) => `${level} ${needText(mm, units)}`);
  return `Needed ${roundWords(side)}: ${needs.join('; ')}.${halvesNeeds(rows, units)}`;
};

const halvesNeeds = (rows: GapReport['rows'], units: Units): string =>
  SIDES.map((side) => {
    const texts = rows.flatMap(({ level, halves }) =>
      halves.filter((half) => half.side === side).map(({ needs: mm }) => `${level} ${needText(mm, units)}`),
    );
    return texts.length === 0 ? '' : `\nOn the ${side}: ${texts.join('; ')}.`;
  }).join('');

const needText = (mm: number, units: Units): string => {
  const size = formatLength(Math.abs(mm), units);
  if (!/[1-9]/.test(size)) return 'nothing';
  return mm > 0 ? `let out ${size}` : `take in ${size}`;
};
