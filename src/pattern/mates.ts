/** Whether the two edges of each seam still fit each other. */

import { lengthTo, pathLength } from '../geometry/arc-length.ts';
import { crossHorizontal } from '../geometry/intersect.ts';
import type { Finding } from './finding.ts';
import { formatLength } from './format-length.ts';
import { findLevel, seamsOf, type SeamEdge } from './look-up.ts';
import type { Pattern } from './pattern.ts';

/** Edges that differ by no more can be sewn without easing: 1/16 in, as Threads 200 (December 2018) trues seams. */
const MATES_DIFFER = 1.5;

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

/**
 * One warning for each part of a seam, above the waist, below it, or the whole, whose two edges differ by more than 1.5 mm.
 * Seams of one edge have no mate.
 */
export const mateFindings = (pattern: Pattern): Finding[] =>
  seamsOf(pattern).flatMap((seam) => {
    const [one, other, ...more] = seam.edges;
    if (!one || !other || more.length > 0) return [];
    const [a, b] = [lengthsOf(one), lengthsOf(other)];
    const differ = (part: keyof EdgeLengths): boolean => Math.abs((a[part] ?? 0) - (b[part] ?? 0)) > MATES_DIFFER;
    const halves = a.above !== undefined && b.above !== undefined;
    const parts = halves ? (['above', 'below'] as const).filter(differ) : [];
    const worst = parts.length > 0 ? parts : (['whole'] as const).filter(differ);
    return worst.map((part): Finding => {
      const [short, long] = a[part]! < b[part]! ? [one, other] : [other, one];
      const by = Math.abs(a[part]! - b[part]!);
      return {
        weight: 'warning',
        kind: 'mates-differ',
        where: part === 'whole' ? `seam ${seam.name}` : `seam ${seam.name}, ${part} the waist`,
        message: `the edge on ${long.panel.name} is ${formatLength(by, pattern.units)} longer than the edge on ${short.panel.name}`,
        cure: 'ease the longer edge in while sewing, or alter one of the two until they match',
      };
    });
  });
