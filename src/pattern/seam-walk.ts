/**
 * How the two edges of a seam compare when they are walked along each other: matched at the waist, then up and down from it, as
 * waistlines are matched first when a bodice is pinned. A seam that does not cross the waist is matched at its end nearest to it.
 */

import { lengthTo, pathLength } from '../geometry/arc-length.ts';
import { crossHorizontal } from '../geometry/intersect.ts';
import { nearestPoint } from '../geometry/nearest-point.ts';
import { pathEnd, pathStart } from '../geometry/path.ts';
import type { Point } from '../geometry/point.ts';
import { insideAngle } from './inside-angle.ts';
import { findLevel, sewnSeams, sidesOf, type SeamEdge, type SewnSeam } from './look-up.ts';
import { pairNotches, type Pairing } from './pair-notches.ts';
import type { Notch, Slit } from './panel.ts';
import type { Pattern } from './pattern.ts';

/** More than this off a straight line across the seam was drawn on purpose, like the point of a sweetheart top. Radians: 30 degrees. */
export const DRAWN_POINT = Math.PI / 6;

/** Less than this off is smooth to the eye across a seam. Radians: 2 degrees. */
export const SMOOTH_ACROSS = Math.PI / 90;

export type SeamPart = 'above' | 'below' | 'whole';

/** A notch on a seam, and its place along it in millimetres upwards from where the two edges are matched. */
export interface PlacedNotch {
  readonly notch: Notch;
  readonly up: number;
}

/** One edge of a seam, walked. */
export interface WalkedEdge extends SeamEdge {
  readonly whole: number;
  /** From the waist to the top and to the bottom; undefined where one of the two edges does not cross it. */
  readonly above: number | undefined;
  readonly below: number | undefined;
  /** How far along its path the edge is matched, in millimetres. */
  readonly matched: number;
  readonly notches: readonly PlacedNotch[];
  /** The inside angles of the panel where the seam meets its top and its bottom edge, in radians. */
  readonly angles: Readonly<Record<CornerEdge, number>>;
}

/** The edges that run on from panel to panel across a seam. */
export const CORNER_EDGES = ['top', 'bottom'] as const;

export type CornerEdge = (typeof CORNER_EDGES)[number];

export interface SeamWalk {
  readonly seam: SewnSeam;
  /** Where the two edges are laid together to be walked. */
  readonly from: 'waist' | CornerEdge;
  readonly edges: readonly [WalkedEdge, WalkedEdge];
  /** A gusset is set into the seam: below its point the two edges are sewn to the gusset, not to each other. */
  readonly isOpen: boolean;
  /** Where top and bottom edges run on across the seam. */
  readonly corners: readonly CornerEdge[];
  readonly pairing: Pairing;
  /**
   * By how much the inside angles at the top and at the bottom sum to more than half a turn, in radians: positive where the line
   * across the seam dips into the garment, negative where it juts out in a peak.
   */
  readonly excess: Readonly<Record<CornerEdge, number>>;
}

/** How far along an edge the waist lies, where the edge first crosses it from its top; undefined where it does not. */
export const waistAlong = ({ panel, edge, side }: SeamEdge): number | undefined => {
  const waist = findLevel(panel, 'waist');
  const crossing = waist && crossHorizontal(edge.path, waist.y).at(side === 'back' ? 0 : -1);
  return crossing && lengthTo(edge.path, crossing.location);
};

/** The end at which an edge off the waist is matched: nearest to the waist, or its top where there is none. */
const endNearWaist = ({ panel, edge }: SeamEdge): CornerEdge => {
  const waist = findLevel(panel, 'waist')?.y;
  const lowest = Math.max(pathStart(edge.path).y, pathEnd(edge.path).y);
  return waist !== undefined && lowest < waist ? 'bottom' : 'top';
};

/** The inside angle of a panel between one of its seam edges and its top or bottom. */
const angleAt = ({ panel, edge, side }: SeamEdge, corner: CornerEdge): number => {
  const other = panel.edges.find(({ name }) => name === corner)!;
  return (side === 'back') === (corner === 'top')
    ? insideAngle(other.path, edge.path)
    : insideAngle(edge.path, other.path);
};

/** Where a gusset is set into the seam: what lies below it is sewn to the gusset. */
const openingOn = ({ panel, edge }: SeamEdge): Slit | undefined => panel.slits?.find((slit) => slit.edge === edge.name);

const walkEdge = (seamEdge: SeamEdge, from: SeamWalk['from']): WalkedEdge => {
  const { panel, edge, side } = seamEdge;
  const whole = pathLength(edge.path);
  const waist = from === 'waist' ? waistAlong(seamEdge)! : undefined;
  const fromStart = waist === undefined ? undefined : { start: waist, end: whole - waist };
  const matched = waist ?? ((from === 'top') === (side === 'back') ? 0 : whole);
  const upTo = (at: Point): number =>
    (lengthTo(edge.path, nearestPoint(edge.path, at).location) - matched) * (side === 'back' ? -1 : 1);
  const opening = openingOn(seamEdge);
  return {
    ...seamEdge,
    whole,
    above: side === 'back' ? fromStart?.start : fromStart?.end,
    below: side === 'back' ? fromStart?.end : fromStart?.start,
    matched,
    notches: panel.notches
      .filter((notch) => notch.edge === edge.name)
      .map((notch) => ({ notch, up: upTo(notch.at) }))
      .filter((notch) => opening === undefined || notch.up > upTo(opening.at)),
    angles: { top: angleAt(seamEdge, 'top'), bottom: angleAt(seamEdge, 'bottom') },
  };
};

/** The two edges of a seam walked along each other; undefined for a seam of one edge or of more than two, and for a side of a gusset. */
export const seamWalk = (seam: SewnSeam): SeamWalk | undefined => {
  const [first, second, ...more] = seam.edges;
  if (!first || !second || more.length > 0) return undefined;
  if (seam.edges.some(({ panel }) => !sidesOf(panel))) return undefined;
  const isOpen = seam.edges.some((seamEdge) => openingOn(seamEdge) !== undefined);
  const crosses = [first, second].every((seamEdge) => waistAlong(seamEdge) !== undefined);
  const from = crosses ? 'waist' : endNearWaist(first);
  const [one, other] = [walkEdge(first, from), walkEdge(second, from)];
  const excess = (corner: CornerEdge): number => one.angles[corner] + other.angles[corner] - Math.PI;
  const places = [one, other].map(({ notches }) => notches.map(({ up }) => up));
  return {
    seam,
    from,
    edges: [one, other],
    isOpen,
    corners: isOpen ? ['top'] : CORNER_EDGES,
    pairing: pairNotches(places[0]!, places[1]!),
    excess: { top: excess('top'), bottom: excess('bottom') },
  };
};

/** Every seam of two edges, walked, from centre front to centre back. */
export const seamWalks = (pattern: Pattern): readonly SeamWalk[] =>
  sewnSeams(pattern).flatMap((seam) => seamWalk(seam) ?? []);

/** The parts of a seam that can be compared: above and below the waist, or else the whole; of an open one only what lies above. */
export const partsOf = ({ from, isOpen }: SeamWalk): readonly SeamPart[] => {
  if (isOpen) return from === 'waist' ? ['above'] : [];
  return from === 'waist' ? ['above', 'below'] : ['whole'];
};

/** By how much the first edge is longer than the second along a part of the seam, in millimetres. */
export const differenceAlong = ({ edges: [one, other] }: SeamWalk, part: SeamPart): number => one[part]! - other[part]!;

/** The parts in which the two edges differ by more than `most`; the whole seam where only both parts together do. */
export const differingParts = (walk: SeamWalk, most: number): readonly SeamPart[] => {
  const differ = (part: SeamPart): boolean => Math.abs(differenceAlong(walk, part)) > most;
  const parts = partsOf(walk).filter(differ);
  return parts.length > 0 || walk.isOpen ? parts : (['whole'] as const).filter(differ);
};
