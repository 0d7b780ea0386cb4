import { seamSidesOf } from '../../pattern/look-up.ts';
import type { Edge, Panel } from '../../pattern/panel.ts';
import { scaleAmount, type AmountAlong } from './amount-along.ts';
import { meetEdges } from './meet-edges.ts';
import { shiftPath } from './shift-path.ts';
import { shiftSquare } from './shift-square.ts';
import { tidied } from '../tidied.ts';

/** How far one edge of a panel moves outwards at each height. */
export interface EdgeMove {
  readonly edge: Edge;
  readonly outward: AmountAlong;
}

/**
 * The panel with some of its edges moved and its outline whole again; marks are not settled yet. Edges that did not change are the
 * very same objects, the others lose their text. Instead of a panel, the reason in words where there is none.
 */
export const movePanelEdges = (panel: Panel, moves: readonly EdgeMove[], square: boolean): Panel | string => {
  const front = seamSidesOf(panel)?.front;
  const paths = panel.edges.map((edge) => edge.path);
  const moved = new Set<number>();
  for (const { edge, outward } of moves) {
    const path = square
      ? shiftSquare(edge.path, outward)
      : shiftPath(edge.path, edge === front ? scaleAmount(outward, -1) : outward);
    if (!path) return `would have a seam ${edge.name} that turns back on itself`;
    const index = panel.edges.indexOf(edge);
    paths[index] = path;
    moved.add(index);
  }
  const met = meetEdges(paths, moved);
  if (typeof met === 'number') {
    const [one, other] = [panel.edges[met]!, panel.edges[(met + 1) % panel.edges.length]!];
    return `would have edges ${one.name} and ${other.name} that no longer meet`;
  }
  const edges = panel.edges.map((edge, index): Edge => {
    const path = met[index]!;
    if (path === edge.path) return edge;
    const { text: _text, ...kept } = edge;
    return { ...kept, path: moved.has(index) ? tidied(path, edge.path) : path };
  });
  return { ...panel, edges };
};
