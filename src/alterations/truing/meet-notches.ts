/** Notches of the two edges of a seam moved along them until they meet. */

import { locationAtLength } from '../../geometry/arc-length.ts';
import { nearestPoint } from '../../geometry/nearest-point.ts';
import type { Notch, Panel } from '../../pattern/panel.ts';
import type { PlacedNotch, SeamWalk, WalkedEdge } from '../../pattern/seam-walk.ts';
import { carryNotch } from '../../pattern/settle-marks.ts';
import { CAUTION } from '../true-seams-options.ts';

/** Notches no farther apart meet: far above what rounding does, far below a pencil line. */
const MEETING = 0.05;

/** A notch moved along its seam: its places are millimetres upwards from where the edges are matched. */
export interface MovedNotch {
  readonly panel: Panel;
  readonly notch: Notch;
  readonly moved: Notch;
  readonly from: number;
  readonly to: number;
}

const placed = (edge: WalkedEdge, { notch, up: from }: PlacedNotch, to: number): MovedNotch => {
  const { path } = edge.edge;
  const along = edge.matched + (edge.side === 'back' ? -to : to);
  const moved = carryNotch(notch, path, nearestPoint(path, notch.at).location, path, locationAtLength(path, along));
  return { panel: edge.panel, notch, moved, from, to };
};

/** The notches of a seam that move, each by its part of the way; `anew` where they were carried already, and so are written anew. */
export const meetNotches = (
  { edges, pairing }: SeamWalk,
  taken: readonly [number, number],
  anew: boolean,
): MovedNotch[] =>
  pairing.pairs.flatMap(([a, b]): MovedNotch[] => {
    const [one, other] = [edges[0].notches[a]!, edges[1].notches[b]!];
    const apart = other.up - one.up;
    if (Math.abs(apart) <= MEETING / (anew ? CAUTION : 1)) return [];
    const meeting = one.up + apart * taken[0];
    return [
      ...(taken[0] === 0 ? [] : [placed(edges[0], one, meeting)]),
      ...(taken[1] === 0 ? [] : [placed(edges[1], other, meeting)]),
    ];
  });
