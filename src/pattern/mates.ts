/** Whether the two edges of each seam still fit each other. */

import type { Finding } from './finding.ts';
import { formatLength } from './format-length.ts';
import { seamsOf, seamWords, sewnSeams, type SewnSeam } from './look-up.ts';
import type { Pattern, Units } from './pattern.ts';
import { differenceAlong, differingParts, seamWalk, type SeamPart, type SeamWalk } from './seam-walk.ts';

/** Edges that differ by no more can be sewn without easing: 1/16 in, as Threads 200 (December 2018) trues seams. */
export const MATES_DIFFER = 1.5;

/** More than about 1/4 in puckers in a seam that is boned. Common practice. */
export const MOST_EASED = 6.35;

/** A part of a seam whose two edges differ. */
export interface MateDifference {
  readonly seam: SewnSeam;
  readonly part: SeamPart;
  /** Millimetres by which the edge on panel `long` is longer than the one on `short`. */
  readonly by: number;
  readonly long: string;
  readonly short: string;
}

/** The parts of one seam, above the waist, below it, or the whole, that differ by more than `most` millimetres. */
export const differencesOf = (walk: SeamWalk, most: number): MateDifference[] =>
  differingParts(walk, most).map((part) => {
    const longer = differenceAlong(walk, part);
    const [short, long] = longer < 0 ? walk.edges : [walk.edges[1], walk.edges[0]];
    return {
      seam: walk.seam,
      part,
      by: Math.abs(longer),
      long: long.panel.name,
      short: short.panel.name,
    };
  });

/** The parts of seams that differ by more than 1.5 mm. Seams of one edge have no mate. */
export const mateDifferences = (seams: readonly SewnSeam[]): MateDifference[] =>
  seams.flatMap((seam) => {
    const walk = seamWalk(seam);
    return walk ? differencesOf(walk, MATES_DIFFER) : [];
  });

const trueCommand = ({ name, side }: SewnSeam): string =>
  `staywright true --seam ${name}${side === undefined ? '' : ` --side ${side}`}`;

/** What a maker is told of a difference. */
export const differenceFinding = ({ seam, part, by, long, short }: MateDifference, units: Units): Finding => ({
  weight: 'warning',
  kind: 'mates-differ',
  where: `seam ${seamWords(seam)}${part === 'whole' ? '' : `, ${part} the waist`}`,
  message: `the edge on ${long} is ${formatLength(by, units)} longer than the edge on ${short}`,
  cure:
    by > MOST_EASED
      ? 'alter one of the two until they match: it is too much to ease into a boned seam'
      : `ease the longer edge in while sewing, or make them equal: ${trueCommand(seam)}`,
});

/** One warning for each part of a seam whose two edges differ by more than 1.5 mm. */
export const mateFindings = (pattern: Pattern): Finding[] =>
  mateDifferences(sewnSeams(pattern)).map((difference) => differenceFinding(difference, pattern.units));

/** As `mateFindings`, but for the seams that an alteration changed; those that it left alone are only counted, in one note. */
export const changedMateFindings = (before: Pattern, after: Pattern): Finding[] => {
  const old = new Set(seamsOf(before).flatMap(({ edges }) => edges.map(({ edge }) => edge.path)));
  const seams = sewnSeams(after);
  const changed = seams.filter(({ edges }) => edges.some(({ edge }) => !old.has(edge.path)));
  const left = new Set(
    mateDifferences(seams.filter((seam) => !changed.includes(seam))).map(({ seam }) => seamWords(seam)),
  );
  const found = mateDifferences(changed).map((difference) => differenceFinding(difference, after.units));
  if (left.size === 0) return found;
  const message = `${left.size === 1 ? 'one seam has' : `${left.size} seams have`} edges that differ as before`;
  return [
    ...found,
    {
      weight: 'note',
      kind: 'mates-differ-as-before',
      where: [...left].join(', '),
      message,
      cure: 'staywright check says by how much',
    },
  ];
};
