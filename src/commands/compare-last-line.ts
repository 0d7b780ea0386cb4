import { changeOf, isChanged, type Comparison, type EdgeComparison } from '../measure/compare/comparison.ts';
import { formatLength, formatSigned } from '../pattern/format-length.ts';
import type { Units } from '../pattern/pattern.ts';
import { levelLines, markLines } from './compare-marks-report.ts';
import { roundWords } from './compare-seams-report.ts';
import { listed } from './compare-words.ts';

/** Girths that changed by nearly the same are told together. Millimetres. */
const ALIKE_ROUND = 0.02;

interface Moved {
  readonly panel: string;
  readonly edge: EdgeComparison;
}

/** What matters most about two versions: gussets, the greatest move, and what became of the girths. */
export const compareLastLine = (found: Comparison, units: Units): string => {
  if (!found.differs) return 'The same: no line lies more than 0.01 mm from where it lay, and nothing else changed.';
  const parts = [...gussetWords(found), ...moveWords(found, units)];
  const said = parts.length > 0 ? parts : [otherWords(found, units)];
  return `They differ: ${[...said, ...girthWords(found, units)].join('; ')}.`;
};

const gussetWords = ({ gussets: { onlyBefore, onlyAfter } }: Comparison): string[] => [
  ...(onlyAfter.length > 0 ? [`${listed(onlyAfter)} set in`] : []),
  ...(onlyBefore.length > 0 ? [`${listed(onlyBefore)} no longer there`] : []),
];

const sizeOf = ({ edge }: Moved): number => Math.abs(edge.most);

/** Of the edges that moved, so many are told, and none that moved less than this share of the greatest. */
const [MOST_TOLD, LEAST_SHARE] = [3, 1 / 2] as const;

/** The edges that moved farthest, those of one name that went one way told once. */
const farthest = (moved: readonly Moved[]): Moved[] => {
  const sorted = moved.toSorted((a, b) => sizeOf(b) - sizeOf(a));
  return sorted
    .filter((one) => sizeOf(one) >= sizeOf(sorted[0]!) * LEAST_SHARE)
    .filter((one, at, all) => all.findIndex((other) => isAlike(one, other)) === at)
    .slice(0, MOST_TOLD);
};

const isAlike = (one: Moved, other: Moved): boolean =>
  one.edge.edge === other.edge.edge && one.edge.most > 0 === other.edge.most > 0;

/** The level that moved farthest, where it moved farther than any edge, and the edges that did. */
const moveWords = (found: Comparison, units: Units): string[] => {
  const moved: Moved[] = found.panels.flatMap(({ panel, edges }) =>
    edges.filter(({ kind }) => kind === 'moved').map((edge) => ({ panel, edge })),
  );
  const told = farthest(moved);
  const [most] = told;
  const heights = found.panels.flatMap(({ levels }) =>
    levels.map(({ level, height }) => ({ level, by: Math.abs(changeOf(height) ?? 0) })),
  );
  const highest = heights.reduce((best, one) => (one.by > best.by ? one : best), { level: '', by: 0 });
  const level = levelLines(found, units).find((line) => line.startsWith(`level ${highest.level}: `));
  return [
    ...(level !== undefined && highest.by > (most === undefined ? 0 : sizeOf(most))
      ? [level.replace(/^level /, '').replace(': ', ' ')]
      : []),
    ...(told.length === 0 ? [] : [told.map((one) => edgeWords(one, moved, units)).join(', ')]),
  ];
};

const edgeWords = (one: Moved, moved: readonly Moved[], units: Units): string => {
  const { edge } = one;
  const alike = moved.filter((other) => isAlike(one, other) && sizeOf(other) >= sizeOf(one) * LEAST_SHARE);
  const verb = verbOf(edge, alike.length > 1);
  return `${edge.edge} on ${listed(alike.map(({ panel }) => panel))} ${verb} by up to ${formatLength(Math.abs(edge.most), units)}`;
};

/** A move the other way of more than this share of the greatest is told too. */
const BOTH_WAYS = 1 / 4;

/** Which way an edge went, unless it went both ways. */
const verbOf = ({ place, most, levels }: EdgeComparison, isMany: boolean): string => {
  const s = isMany ? '' : 's';
  if (place === 'other') return `move${s}`;
  if (place === 'top' || place === 'bottom') return most < 0 ? `go${isMany ? '' : 'es'} down` : `come${s} up`;
  const back = levels.some(({ outwards = 0 }) => -Math.sign(most) * outwards > Math.abs(most) * BOTH_WAYS);
  if (back) return `move${s} in and out`;
  return most < 0 ? `come${s} in` : `go${isMany ? '' : 'es'} out`;
};

/** No line moved: then the edge that ends elsewhere by most, or the first of what else changed. */
const otherWords = (found: Comparison, units: Units): string => {
  const ends = found.panels.flatMap(({ panel, edges }) =>
    edges.flatMap(({ edge, kind, ends: both }) =>
      kind === 'ends' ? both.map((end) => ({ panel, edge, ...end })) : [],
    ),
  );
  const [first] = ends;
  if (first !== undefined) {
    const { panel, edge, longer, at } = ends.reduce(
      (best, one) => (Math.abs(one.longer) > Math.abs(best.longer) ? one : best),
      first,
    );
    return `${edge} on ${panel} is ${formatLength(Math.abs(longer), units)} ${longer < 0 ? 'shorter' : 'longer'} at ${at}`;
  }
  return markLines(found, units)[0] ?? notchWords(found);
};

/** Nothing but notches is left to differ. */
const notchWords = ({ panels }: Comparison): string => {
  const edges = panels.flatMap(({ panel, notches }) =>
    notches.filter(isChanged).map(({ edge }) => `${edge} of ${panel}`),
  );
  return `notches on ${listed([...new Set(edges)])}`;
};

/** The girth that changed most, and the waist; or all of them at once. */
const girthWords = (found: Comparison, units: Units): string[] => {
  const { girths } = found;
  const [first, ...more] = girths.filter((girth) => isChanged(girth) && changeOf(girth) !== undefined);
  if (first === undefined) return girths.length === 0 ? [] : [`nothing changes ${roundWords(found)}`];
  const most = more.reduce(
    (best, girth) => (Math.abs(changeOf(girth)!) > Math.abs(changeOf(best)!) ? girth : best),
    first,
  );
  const changes = girths.map((girth) => changeOf(girth) ?? 0);
  if (girths.length > 1 && Math.max(...changes) - Math.min(...changes) < ALIKE_ROUND) {
    return [`${roundWords(found)} ${formatSigned(changeOf(most)!, units)} at every level`];
  }
  const waist = girths.find(({ level }) => level === 'waist');
  const told = waist === undefined || waist === most ? [most] : [most, waist];
  const words = told.map((girth) => `${girth.level} ${formatSigned(changeOf(girth) ?? 0, units)}`);
  return [`${roundWords(found)} ${words.join(', ')}`];
};
