/** Lengths along seams, notches, corner angles and girths that changed, as tables. */

import { countOf } from '../cli/count-of.ts';
import { figure } from '../cli/figure.ts';
import { tableText } from '../cli/table-text.ts';
import { wrapWords } from '../cli/wrap-words.ts';
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
import { areAlike, inWords, listed, moveCell, SLIGHT } from './compare-words.ts';

/** One figure in both versions, of some edge of some panel. */
interface Row {
  readonly what: string;
  readonly panel: string;
  readonly both: Both;
}

const cell = (mm: number | undefined, units: Units): string => (mm === undefined ? '-' : figure(mm, units));

const cells = (both: Both, units: Units): string[] => [
  cell(both.before, units),
  cell(both.after, units),
  moveCell(changeOf(both), units),
];

/** Rows of one thing that read alike on several panels become one, with all of their names. */
const joined = (rows: readonly Row[]): { readonly what: string; readonly panels: string[]; readonly both: Both }[] => {
  const groups: { what: string; panels: string[]; both: Both }[] = [];
  for (const { what, panel, both } of rows) {
    const same = groups.find((group) => group.what === what && areAlike(group.both, both));
    if (same) same.panels.push(panel);
    else groups.push({ what, panels: [panel], both });
  }
  return groups;
};

const isSlight = (both: Both): boolean => Math.abs(changeOf(both) ?? Infinity) < SLIGHT;

const nameOf = ({ seam, side }: Pick<SeamComparison, 'seam' | 'side'>): string =>
  side === undefined ? seam : `${seam} ${side}`;

/** Above and below the waist where an edge crosses it in both versions, else the whole edge; only what changed. */
const edgeRows = ({ edges, ...seam }: SeamComparison): Row[] =>
  edges.flatMap(({ panel, above, below, whole }) => {
    const parts =
      changeOf(above) === undefined
        ? [{ what: nameOf(seam), both: whole }]
        : [
            { what: `${nameOf(seam)} above waist`, both: above },
            { what: `${nameOf(seam)} below waist`, both: below },
          ];
    return parts.filter(({ both }) => isChanged(both)).map((part) => ({ ...part, panel }));
  });

/** By how much the two edges of a seam differ, where that changed to be seen: what matters for sewing them. */
const differenceRows = ({ differences, ...seam }: SeamComparison, units: Units): string[][] =>
  differences
    .filter((difference) => changeOf(difference) !== undefined && !isSlight(difference))
    .map(({ part, before, after }) => [
      `  ${nameOf(seam)}${part === 'whole' ? '' : ` ${part} waist`}, difference`,
      cell(Math.abs(before!), units),
      cell(Math.abs(after!), units),
      moveCell(Math.abs(after!) - Math.abs(before!), units),
    ]);

/** The seams whose lengths changed, one row for edges that read alike. */
export const seamTable = ({ seams }: Comparison, units: Units): string => {
  const all = seams.map((seam) => ({ seam, rows: edgeRows(seam) }));
  const shown = all.flatMap(({ seam, rows }) => [
    ...joined(rows.filter(({ both }) => !isSlight(both))).map(({ what, panels, both }) => [
      `${what}${panels.length < seam.edges.length ? `, on ${listed(panels)}` : ''}`,
      ...cells(both, units),
    ]),
    ...differenceRows(seam, units),
  ]);
  const slight = all.flatMap(({ rows }) => rows).filter(({ both }) => isSlight(both)).length;
  const left =
    slight === 0
      ? ''
      : `${countOf(slight, shown.length === 0 ? 'length' : 'other length')} along a seam changed by less than ${SLIGHT} mm.\n`;
  if (shown.length === 0) return left;
  return `Lengths along the seams:\n${tableText([inWords(units), 'before', 'after', 'change'], shown)}${left}`;
};

/** Names that are longer go on below, so that a figure still stands beside them. */
const LONGEST_NAME = 48;

/** The notches that moved along their seams, one row for those that moved alike. */
export const notchTable = ({ panels }: Comparison, units: Units): string => {
  const rows = panels.flatMap(({ panel, notches }) =>
    notches
      .filter((notch) => isChanged(notch) && !isSlight(notch))
      .map(({ edge, from, before, after }) => ({
        what: from === 'waist' ? edge : `${edge}, from its start`,
        panel,
        both: { before, after },
      })),
  );
  if (rows.length === 0) return '';
  const shown = joined(rows).flatMap(({ what, panels: on, both }) => {
    const [first = '', ...more] = wrapWords(`${what} on ${listed(on)}`, LONGEST_NAME);
    return [[first, ...cells(both, units)], ...more.map((line) => [`  ${line}`])];
  });
  const table = tableText([inWords(units), 'before', 'after', 'change'], shown);
  return `Notches along their seams: + above the waist, - below.\n${table}`;
};

export const angleTable = ({ panels }: Comparison): string => {
  const rows = panels.flatMap(({ panel, corners }) =>
    corners
      .filter(({ before, after }) => Math.abs(after - before) >= SAME_ANGLE)
      .map(({ edge, next, before, after }) => {
        const change = degreesOf(after - before);
        return [
          `${edge} to ${next} on ${panel}`,
          degreesOf(before).toFixed(1),
          degreesOf(after).toFixed(1),
          `${change > 0 ? '+' : ''}${change.toFixed(1)}`,
        ];
      }),
  );
  if (rows.length === 0) return '';
  return `Inside angles:\n${tableText(['in degrees', 'before', 'after', 'change'], rows)}`;
};

/** `round the body`; of one side, its half; of lines that still hold allowance, just them. */
export const roundWords = ({ half, line }: Comparison): string => {
  if (line === 'cutting') return 'round all cutting lines';
  return half === undefined ? 'round the body' : `round the ${half} half`;
};

/** Every level, those that did not change too: that they did not is news as well. */
export const comparedGirths = (found: Comparison, units: Units): string => {
  if (found.girths.length === 0) return '';
  const rows = found.girths.map((girth) => [girth.level, ...cells(girth, units)]);
  const round = roundWords(found);
  const table = tableText([inWords(units), 'before', 'after', 'change'], rows);
  return `${round.charAt(0).toUpperCase()}${round.slice(1)}:\n${table}`;
};
