/** Lengths along seams, corner angles and girths that changed, as tables. */

import { figure } from '../cli/figure.ts';
import { tableText } from '../cli/table-text.ts';
import { degreesOf } from '../geometry/degrees.ts';
import {
  changeOf,
  isChanged,
  SAME_ANGLE,
  type Both,
  type Comparison,
  type SeamComparison,
} from '../measure/compare/comparison.ts';
import type { Units } from '../pattern/pattern.ts';
import { moveCell } from './compare-edges-report.ts';

const inWords = (units: Units): string => `in ${units === 'in' ? 'inches' : 'mm'}`;

const cell = (mm: number | undefined, units: Units): string => (mm === undefined ? '-' : figure(mm, units));

const cells = (both: Both, units: Units): string[] => [
  cell(both.before, units),
  cell(both.after, units),
  moveCell(changeOf(both), units),
];

/** Above and below the waist where an edge crosses it in both versions, else the whole edge; only what changed. */
const edgeRows = (seam: SeamComparison, units: Units): string[][] =>
  seam.edges.flatMap(({ panel, above, below, whole }) => {
    const parts =
      changeOf(above) === undefined
        ? [{ says: '', both: whole }]
        : [
            { says: ', above waist', both: above },
            { says: ', below waist', both: below },
          ];
    return parts
      .filter(({ both }) => isChanged(both))
      .map(({ says, both }) => [`${seam.seam} on ${panel}${says}`, ...cells(both, units)]);
  });

/** By how much the edges of a seam differ, where that changed: what matters for sewing it. */
const differenceRows = (seam: SeamComparison, units: Units): string[][] =>
  seam.differences.filter(isChanged).map((difference) => {
    const sizes = { before: size(difference.before), after: size(difference.after) };
    return [
      `  they differ by${difference.part === 'whole' ? '' : `, ${difference.part}`}`,
      cell(sizes.before, units),
      cell(sizes.after, units),
      '',
    ];
  });

const size = (mm: number | undefined): number | undefined => (mm === undefined ? undefined : Math.abs(mm));

export const seamTable = ({ seams }: Comparison, units: Units): string => {
  const rows = seams.flatMap((seam) => [...edgeRows(seam, units), ...differenceRows(seam, units)]);
  if (rows.length === 0) return '';
  return `Along the seams that changed:\n${tableText([inWords(units), 'before', 'after', 'change'], rows)}`;
};

export const angleTable = ({ panels }: Comparison): string => {
  const rows = panels.flatMap(({ panel, corners }) =>
    corners
      .filter(({ before, after }) => Math.abs(after - before) >= SAME_ANGLE)
      .map(({ edge, next, before, after }) => {
        const [was, is] = [degreesOf(before), degreesOf(after)];
        const change = is - was;
        return [
          `${edge} to ${next} on ${panel}`,
          was.toFixed(1),
          is.toFixed(1),
          `${change > 0 ? '+' : ''}${change.toFixed(1)}`,
        ];
      }),
  );
  if (rows.length === 0) return '';
  return `Angles inside the corners that changed:\n${tableText(['in degrees', 'before', 'after', 'change'], rows)}`;
};

/** Every level, those that did not change too: that they did not is news as well. */
export const comparedGirths = ({ girths, half, line }: Comparison, units: Units): string => {
  if (girths.length === 0) return '';
  const round =
    line === 'cutting' ? 'Round all cutting lines' : half === undefined ? 'Round the body' : `Round the ${half} half`;
  return `${round}, at each level:\n${tableText(
    [inWords(units), 'before', 'after', 'change'],
    girths.map((girth) => [girth.level, ...cells(girth, units)]),
  )}`;
};
