/** Top and bottom edges made smooth where they cross a seam. */

import type { Edge, Panel } from '../../pattern/panel.ts';
import {
  DRAWN_POINT,
  SMOOTH_ACROSS,
  type CornerEdge,
  type SeamWalk,
  type WalkedEdge,
} from '../../pattern/seam-walk.ts';
import { CAUTION } from '../true-seams-options.ts';
import { turnEnd, turnStart } from './turn-end.ts';

/** One end of a top or bottom edge to be turned, so that the inside angle of its panel there becomes smaller by so many radians. */
export interface EndTurn {
  readonly panel: Panel;
  readonly corner: CornerEdge;
  readonly side: WalkedEdge['side'];
  readonly by: number;
}

/** Points drawn on purpose are told apart with this margin (radians) in edges that are written anew, for the same reason as CAUTION. */
const MARGIN = Math.PI / 1800;

/** The turns that make the edges run smoothly across a seam; `isNew` says of an edge whether it is written anew in any case. */
export const turnsAcross = (
  { edges, excess, corners }: SeamWalk,
  taken: readonly [number, number],
  isNew: (edge: Edge) => boolean,
): EndTurn[] =>
  corners
    .flatMap((corner) => {
      const anew = edges.some(({ panel, edge }) =>
        panel.edges.some((each) => (each === edge || each.name === corner) && isNew(each)),
      );
      const off = Math.abs(excess[corner]);
      if (off <= SMOOTH_ACROSS / (anew ? CAUTION : 1) || off > DRAWN_POINT + (anew ? MARGIN : 0)) return [];
      return edges.map(({ panel, side }, at) => ({ panel, corner, side, by: excess[corner] * taken[at]! }));
    })
    .filter(({ by }) => by !== 0);

/** The path of a top or bottom edge with its end at one side of the panel turned; undefined where it is too short to be turned. */
export const turnedAt = ({ path }: Edge, { corner, side, by }: EndTurn): Edge['path'] | undefined =>
  (corner === 'top') === (side === 'front') ? turnStart(path, by) : turnEnd(path, -by);
