/** Making the outline of a panel whole again after some of its edges moved. */

import { meetAtCorner } from '../../geometry/extend.ts';
import { pathEnd, pathStart, type Path } from '../../geometry/path.ts';
import { distance } from '../../geometry/point.ts';
import { reversePath } from '../../geometry/reverse-path.ts';
import { drawOn, EDGE_TURN } from './draw-on.ts';

/** A moved seam goes on along its end tangent; within 3 degrees of it, it may as well keep its curve and so undo a trimming exactly. */
const SEAM_TURN = Math.PI / 60;

/**
 * The outline's edges, in order, made end to end: where a moved edge no longer meets the one beside it, both are trimmed or extended
 * to where they cross; the moved edge along its end tangent, the other along its own curve. Edges that still meet are the very same
 * paths. Returns the number of an edge that cannot meet the next one where there is no such crossing.
 */
export const meetEdges = (edges: readonly Path[], moved: ReadonlySet<number>): readonly Path[] | number => {
  const met = edges.slice();
  for (const index of edges.keys()) {
    const next = (index + 1) % edges.length;
    const gap = distance(pathEnd(met[index]!), pathStart(met[next]!));
    if (gap === 0) continue;
    const mostTurn = (edge: number): number => (moved.has(edge) ? SEAM_TURN : EDGE_TURN);
    const before = drawOn(met[index]!, gap, mostTurn(index));
    const after = reversePath(drawOn(reversePath(met[next]!), gap, mostTurn(next)));
    const corner = meetAtCorner(before, after);
    if (!corner) return index;
    met[index] = corner.a;
    met[next] = corner.b;
  }
  return met;
};
