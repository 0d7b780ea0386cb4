/** Making the outline of a panel whole again after some of its edges moved. */

import { segmentLength } from '../geometry/arc-length.ts';
import { tangentOn } from '../geometry/evaluate.ts';
import { meetAtCorner } from '../geometry/extend.ts';
import { growCubic } from '../geometry/grow-cubic.ts';
import { pathEnd, pathStart, type Path } from '../geometry/path.ts';
import { distance } from '../geometry/point.ts';
import { reversePath } from '../geometry/reverse-path.ts';
import { turn } from '../geometry/vector.ts';

/** A curve goes on along itself at most once its own length: farther, the rounding of its handles would show. */
const FARTHEST = 2;

/** An edge beside a moved seam keeps its own curve until it has turned 20 degrees more; past that it could curl up. */
const EDGE_TURN = Math.PI / 9;

/** A moved seam goes on along its end tangent; within 3 degrees of it, it may as well keep its curve and so undo a trimming exactly. */
const SEAM_TURN = Math.PI / 60;

const STEP = 1 / 32;

/** How much farther than the gap a curve is drawn on: enough for a seam that meets it at a slant. */
const AMPLE = 3;

/**
 * The path with a curved last piece drawn on as the same curve until it has turned by `mostTurn`, so that an edge that was trimmed by one alteration gets its own
 * shape back from the opposite one. A straight last piece is left: it is extended along itself anyhow.
 */
const drawnOn = (path: Path, gap: number, mostTurn: number): Path => {
  const last = path.segments.at(-1)!;
  if (last.kind === 'line') return path;
  const direction = tangentOn(last, 1);
  let longest = last;
  for (let t = 1 + STEP; t <= FARTHEST; t += STEP) {
    const longer = growCubic(last, t);
    if (Math.abs(turn(direction, tangentOn(longer, 1))) > mostTurn) break;
    longest = longer;
    if (segmentLength(longer) - segmentLength(last) > AMPLE * gap) break;
  }
  return longest === last ? path : { segments: [...path.segments.slice(0, -1), longest] };
};

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
    const before = drawnOn(met[index]!, gap, mostTurn(index));
    const after = reversePath(drawnOn(reversePath(met[next]!), gap, mostTurn(next)));
    const corner = meetAtCorner(before, after);
    if (!corner) return index;
    met[index] = corner.a;
    met[next] = corner.b;
  }
  return met;
};
