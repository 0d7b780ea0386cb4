import { pathEnd, pathStart, type Path } from '../geometry/path.ts';
import { samePoint, type Point } from '../geometry/point.ts';
import { roundNumber, roundPath, roundPoint } from '../geometry/round-path.ts';
import type { Edge, Panel } from '../pattern/panel.ts';

/** The path rounded, but for its ends, which are as given. */
const roundBetween = (path: Path, start: Point, end: Point): Path => {
  const segments = [...roundPath(path).segments];
  segments[0] = { ...segments[0]!, start };
  segments[segments.length - 1] = { ...segments.at(-1)!, end };
  return { segments };
};

/**
 * Edges as they are written. One with a text of its own stays as it is; a point that another shares with it stays exactly as that text
 * holds it, so that edges still meet. Throws a plain Error (a bug) where edges do not meet.
 */
const settleEdges = (edges: readonly Edge[]): Edge[] =>
  edges.map((edge, i) => {
    const before = edges.at(i - 1)!;
    const after = edges[(i + 1) % edges.length]!;
    const [start, end] = [pathStart(edge.path), pathEnd(edge.path)];
    if (!samePoint(end, pathStart(after.path))) {
      throw new Error(`edge ${edge.name} does not end where ${after.name} begins`);
    }
    if (edge.text !== undefined) return edge;
    const from = before.text === undefined ? roundPoint(start) : start;
    const to = after.text === undefined ? roundPoint(end) : end;
    return { ...edge, path: roundBetween(edge.path, from, to) };
  });

/** The panel with all its numbers as a sheet will hold them, so that everything that is made from them is the same the next time. */
export const settlePanel = (panel: Panel): Panel => ({
  ...panel,
  edges: settleEdges(panel.edges),
  levels: panel.levels.map(({ name, y, fromX, toX }) => ({
    name,
    y: roundNumber(y),
    fromX: roundNumber(fromX),
    toX: roundNumber(toX),
  })),
  notches: panel.notches.map(({ edge, at, inner }) => ({ edge, at: roundPoint(at), inner: roundPoint(inner) })),
  ...(panel.gusset ? { gusset: { waistY: roundNumber(panel.gusset.waistY) } } : {}),
  ...(panel.slits
    ? { slits: panel.slits.map((slit) => ({ ...slit, at: roundPoint(slit.at), to: roundPoint(slit.to) })) }
    : {}),
  ...(panel.grain ? { grain: { from: roundPoint(panel.grain.from), to: roundPoint(panel.grain.to) } } : {}),
  bones: panel.bones.map(roundPath),
  ...(panel.cutting ? { cutting: roundPath(panel.cutting) } : {}),
});
