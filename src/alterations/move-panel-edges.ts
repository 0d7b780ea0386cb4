import type { Path } from '../geometry/path.ts';
import { simplifyPath } from '../geometry/simplify-path.ts';
import { REFIT_TOLERANCE } from '../geometry/tolerance.ts';
import { sidesOf } from '../pattern/look-up.ts';
import type { Edge, Panel } from '../pattern/panel.ts';
import { scaleAmount, type AmountAlong } from './amount-along.ts';
import { meetEdges } from './meet-edges.ts';
import { shiftPath } from './shift-path.ts';
import { shiftSquare } from './shift-square.ts';

/** How far one edge of a panel moves outwards at each height. */
export interface EdgeMove {
  readonly edge: Edge;
  readonly outward: AmountAlong;
}

/**
 * Where merging at REFIT_TOLERANCE leaves too many nodes it is eased up to this many times: to 8 on any seam that runs down steadily,
 * so that amounts stay within 0.01 mm; beyond only where a seam turns back upwards and passes each level three times. (Such a seam
 * moved square, by an amount that changes with the height, may still keep a few more nodes than asked.)
 */
const EASINGS = [1, 2, 4, 8, 16, 32, 64] as const;

const nodesOf = (path: Path): number => path.segments.length + 1;

/** As few nodes as the tolerance allows, where the edge has more than it had. */
const tidied = (moved: Path, before: Path): Path => {
  const most = 2 * nodesOf(before) + 4;
  if (moved.segments.length <= before.segments.length) return moved;
  let tidy = moved;
  for (const easing of EASINGS) {
    tidy = simplifyPath(moved, REFIT_TOLERANCE * easing);
    if (nodesOf(tidy) <= most) break;
  }
  return tidy;
};

/**
 * The panel with some of its edges moved and its outline whole again; marks are not settled yet. Edges that did not change are the
 * very same objects, the others lose their text. Instead of a panel, the reason in words where there is none.
 */
export const movePanelEdges = (panel: Panel, moves: readonly EdgeMove[], square: boolean): Panel | string => {
  const front = sidesOf(panel)?.front;
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
