/** What else than its length must meet where two panels are sewn together: notches, and the lines that run across the seam. */

import { degreesOf } from '../geometry/degrees.ts';
import type { Finding } from './finding.ts';
import { formatLength } from './format-length.ts';
import { seamWords } from './look-up.ts';
import { MATES_DIFFER } from './mates.ts';
import type { Pattern, Units } from './pattern.ts';
import { DRAWN_POINT, seamWalks, type CornerEdge, type PlacedNotch, type SeamWalk } from './seam-walk.ts';

/** A place along a seam in a maker's words: `52.00 mm above the waist`. */
export const placeWords = ({ up }: PlacedNotch, from: SeamWalk['from'], units: Units): string => {
  const origin = from === 'waist' ? 'the waist' : `the ${from} of the seam`;
  const away = formatLength(Math.abs(up), units);
  if (!/[1-9]/.test(away)) return `at ${origin}`;
  return `${away} ${up > 0 ? 'above' : 'below'} ${origin}`;
};

/** One warning for each pair of notches that lie more than `most` millimetres apart along the seam. */
export const notchesApart = ({ seam, from, edges, pairing }: SeamWalk, most: number, units: Units): Finding[] =>
  pairing.pairs.flatMap(([a, b]): Finding[] => {
    const [one, other] = [edges[0].notches[a]!, edges[1].notches[b]!];
    const by = one.up - other.up;
    if (Math.abs(by) <= most) return [];
    return [
      {
        weight: 'warning',
        kind: 'notches-apart',
        where: `seam ${seamWords(seam)}`,
        message: `the notch ${placeWords(one, from, units)} on ${edges[0].panel.name} lies ${formatLength(Math.abs(by), units)} ${by > 0 ? 'above' : 'below'} its mate on ${edges[1].panel.name}`,
        cure: `staywright true --seam ${seam.name} lets them meet`,
      },
    ];
  });

/** One note for each notch that has none to meet on the other edge. */
export const singleNotches = ({ seam, from, edges, pairing }: SeamWalk, units: Units): Finding[] =>
  edges.flatMap(({ panel, notches }, at) =>
    pairing.singles[at]!.map((index): Finding => ({
      weight: 'note',
      kind: 'notch-single',
      where: `seam ${seamWords(seam)}`,
      message: `the notch ${placeWords(notches[index]!, from, units)} on ${panel.name} has no mate on ${edges[1 - at]!.panel.name}`,
    })),
  );

/** `a peak of 6.4 degrees`, where the line juts out of the garment at the seam; `a dip`, where it cuts in. */
export const bendWords = (excess: number): string =>
  `a ${excess < 0 ? 'peak' : 'dip'} of ${Math.abs(degreesOf(excess)).toFixed(1)} degrees`;

const cornerFinding = ({ seam, excess }: SeamWalk, corner: CornerEdge): Finding => {
  const drawn = Math.abs(excess[corner]) > DRAWN_POINT;
  return {
    weight: drawn ? 'note' : 'warning',
    kind: drawn ? 'point-across-seam' : 'bend-across-seam',
    where: `seam ${seamWords(seam)}`,
    message: `the ${corner} edge makes ${bendWords(excess[corner])} there${drawn ? ', taken for a point drawn on purpose' : ''}`,
    ...(drawn ? {} : { cure: `staywright true --seam ${seam.name} makes it smooth` }),
  };
};

/** A warning where a top or bottom edge bends by more than `most` radians across the seam; from DRAWN_POINT on only a note. */
export const bendFindings = (walk: SeamWalk, most: number): Finding[] =>
  walk.corners.filter((corner) => Math.abs(walk.excess[corner]) > most).map((corner) => cornerFinding(walk, corner));

/**
 * What is wrong with the notches of seams: pairs more than 1.5 mm apart. Single notches and bends are no fault of a sheet: they may be
 * meant, and walking the seams tells them.
 */
export const meetingFindings = (pattern: Pattern): Finding[] =>
  seamWalks(pattern).flatMap((walk) => notchesApart(walk, MATES_DIFFER, pattern.units));
