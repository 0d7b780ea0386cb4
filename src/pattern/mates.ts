/** Whether the two edges of each seam still fit each other. */

import { lengthTo, pathLength } from '../geometry/arc-length.ts';
import { crossHorizontal } from '../geometry/intersect.ts';
import type { Finding } from './finding.ts';
import { formatLength } from './format-length.ts';
import { findLevel, seamsOf, type Seam, type SeamEdge } from './look-up.ts';
import type { Pattern, Units } from './pattern.ts';

/** Edges that differ by no more can be sewn without easing: 1/16 in, as Threads 200 (December 2018) trues seams. */
const MATES_DIFFER = 1.5;

/** More than about 1/4 in puckers in a seam that is boned. Common practice. */
export const MOST_EASED = 6.35;

interface EdgeLengths {
  readonly whole: number;
  readonly above: number | undefined;
  readonly below: number | undefined;
}

/** An edge measured whole, and from the waist (on which panels are matched) upwards and downwards; where it crosses it first from its top. */
const lengthsOf = ({ panel, edge, side }: SeamEdge): EdgeLengths => {
  const whole = pathLength(edge.path);
  const waist = findLevel(panel, 'waist');
  const crossing = waist && crossHorizontal(edge.path, waist.y).at(side === 'back' ? 0 : -1);
  if (!crossing) return { whole, above: undefined, below: undefined };
  const first = lengthTo(edge.path, crossing.location);
  return side === 'back'
    ? { whole, above: first, below: whole - first }
    : { whole, above: whole - first, below: first };
};

/** A part of a seam whose two edges differ by more than 1.5 mm. */
export interface MateDifference {
  readonly seam: string;
  readonly part: 'above' | 'below' | 'whole';
  /** Millimetres by which the edge on panel `long` is longer than the one on `short`. */
  readonly by: number;
  readonly long: string;
  readonly short: string;
}

/** The parts of seams, above the waist, below it, or the whole, that differ. Seams of one edge have no mate. */
export const mateDifferences = (seams: readonly Seam[]): MateDifference[] =>
  seams.flatMap((seam) => {
    const [one, other, ...more] = seam.edges;
    if (!one || !other || more.length > 0) return [];
    const [a, b] = [lengthsOf(one), lengthsOf(other)];
    const differ = (part: keyof EdgeLengths): boolean => Math.abs((a[part] ?? 0) - (b[part] ?? 0)) > MATES_DIFFER;
    const halves = a.above !== undefined && b.above !== undefined;
    const parts = halves ? (['above', 'below'] as const).filter(differ) : [];
    const worst = parts.length > 0 ? parts : (['whole'] as const).filter(differ);
    return worst.map((part) => {
      const [short, long] = a[part]! < b[part]! ? [one, other] : [other, one];
      return {
        seam: seam.name,
        part,
        by: Math.abs(a[part]! - b[part]!),
        long: long.panel.name,
        short: short.panel.name,
      };
    });
  });

const findingOf = ({ seam, part, by, long, short }: MateDifference, units: Units): Finding => ({
  weight: 'warning',
  kind: 'mates-differ',
  where: part === 'whole' ? `seam ${seam}` : `seam ${seam}, ${part} the waist`,
  message: `the edge on ${long} is ${formatLength(by, units)} longer than the edge on ${short}`,
  cure:
    by > MOST_EASED
      ? 'alter one of the two until they match: it is too much to ease into a boned seam'
      : 'ease the longer edge in while sewing, or alter one of the two until they match',
});

/** One warning for each part of a seam whose two edges differ by more than 1.5 mm. */
export const mateFindings = (pattern: Pattern): Finding[] =>
  mateDifferences(seamsOf(pattern)).map((difference) => findingOf(difference, pattern.units));

/** As `mateFindings`, but for the seams that an alteration changed; those that it left alone are only counted, in one note. */
export const changedMateFindings = (before: Pattern, after: Pattern): Finding[] => {
  const old = new Set(seamsOf(before).flatMap(({ edges }) => edges.map(({ edge }) => edge.path)));
  const seams = seamsOf(after);
  const changed = seams.filter(({ edges }) => edges.some(({ edge }) => !old.has(edge.path)));
  const left = new Set(mateDifferences(seams.filter((seam) => !changed.includes(seam))).map(({ seam }) => seam));
  const found = mateDifferences(changed).map((difference) => findingOf(difference, after.units));
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
