import { StaywrightError } from '../../errors.ts';
import { selfCrossings } from '../../geometry/intersect.ts';
import { offsetOutline } from '../../geometry/offset-outline.ts';
import { pathStart, type Path } from '../../geometry/path.ts';
import { roundPath } from '../../geometry/round-path.ts';
import type { CornerStyle, Edge, Panel } from '../../pattern/panel.ts';
import { ALLOWANCE_TOLERANCE } from './allowance-widths.ts';
import { bluntApex } from './blunt-apex.ts';
import { finishCorner } from './finish-corner.ts';

/** The edges that have a finish at their ends; the seams run into them. */
const TURNED: ReadonlySet<string> = new Set(['top', 'bottom']);

/**
 * The panel with its cutting line drawn anew round its stitching line, from the allowance and the corners of each edge, the apex of a gusset blunted; without a
 * cutting line where no edge has an allowance. The line is closed, clockwise, within 0.02 mm of the true parallel and rounded as
 * written. Throws `impossible` where no such line can be drawn without crossing itself.
 */
export const redrawCutting = (panel: Panel): Panel => {
  const { cutting: _, ...net } = panel;
  if (panel.edges.every((edge) => (edge.allowance ?? 0) === 0)) return net;
  const runs = panel.edges.map((edge) => ({ path: edge.path, distance: edge.allowance ?? 0 }));
  const cutting = atPanel(panel, () => {
    const parallels = bluntApex(panel, offsetOutline(runs, ALLOWANCE_TOLERANCE));
    return roundPath(closedPath(finishCorners(panel.edges, parallels)));
  });
  const [crossing] = selfCrossings(cutting);
  if (crossing !== undefined) {
    const at = `${crossing.point.x.toFixed(0)},${crossing.point.y.toFixed(0)}`;
    throw new StaywrightError('impossible', `the cutting line would cross itself at ${at}`, {
      where: `panel ${panel.name}`,
      hint: 'use mitred corners there, or a smaller allowance',
    });
  }
  return { ...net, cutting };
};

/** What goes wrong is told of the panel it goes wrong on. */
const atPanel = <T>(panel: Panel, draw: () => T): T => {
  try {
    return draw();
  } catch (error) {
    if (!(error instanceof StaywrightError)) throw error;
    const hint = error.hint === undefined ? {} : { hint: error.hint };
    throw new StaywrightError(error.code, error.message, { ...hint, where: `panel ${panel.name}`, cause: error });
  }
};

const styleAt = (before: Edge, after: Edge): CornerStyle => {
  const turned = [before, after].filter((edge) => TURNED.has(edge.name));
  return turned.length === 1 ? (turned[0]!.corners ?? 'mitre') : 'mitre';
};

/** The parallels with every corner between a seam and a top or bottom edge finished as that edge asks. */
const finishCorners = (edges: readonly Edge[], parallels: readonly Path[]): Path[] => {
  const runs = [...parallels];
  const between: Path[][] = edges.map(() => []);
  for (const [at, edge] of edges.entries()) {
    const next = (at + 1) % edges.length;
    const style = styleAt(edge, edges[next]!);
    if (style === 'mitre') continue;
    const first = { edge: edge.path, cut: runs[at]!, width: edge.allowance ?? 0 };
    const second = { edge: edges[next]!.path, cut: runs[next]!, width: edges[next]!.allowance ?? 0 };
    const finished = finishCorner(style, first, second, TURNED.has(edge.name) ? 'second' : 'first');
    if (finished === undefined) continue;
    runs[at] = finished.first;
    runs[next] = finished.second;
    between[at] = finished.between;
  }
  return runs.flatMap((run, at) => [run].concat(between[at]!));
};

/** The runs one after another as one closed path. */
const closedPath = (runs: readonly Path[]): Path => {
  const segments = runs.flatMap((run) => run.segments);
  const last = segments.at(-1)!;
  const start = pathStart({ segments });
  return { segments: [...segments.slice(0, -1), { ...last, end: start }] };
};
