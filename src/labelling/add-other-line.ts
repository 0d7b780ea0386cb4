import { pathLength, locationAtLength } from '../geometry/arc-length.ts';
import { pointOn } from '../geometry/evaluate.ts';
import { flattenPath } from '../geometry/flatten.ts';
import type { Matrix } from '../geometry/matrix.ts';
import { nearestPoint } from '../geometry/nearest-point.ts';
import type { Path } from '../geometry/path.ts';
import { reversePath } from '../geometry/reverse-path.ts';
import { signedArea } from '../geometry/area.ts';
import { roundNumber, roundPath } from '../geometry/round-path.ts';
import { transformPath } from '../geometry/transform-path.ts';
import type { Finding } from '../pattern/finding.ts';
import type { Panel } from '../pattern/panel.ts';
import { drawArtwork } from './keep-artwork.ts';

/** Widths along one edge that differ by less are one width, in millimetres: what a drawing program's own offset is off by. */
const SAME_WIDTH = 0.2;

/** How many places of an edge are measured, all well away from its corners. */
const [PLACES, MARGIN] = [15, 0.15];

const SAMPLE_TOLERANCE = 0.2;

/**
 * Adds the line of the panel that `--line` did not name. A cutting line round stitching edges becomes the panel's own, with the
 * width of each edge; where a width varies it is left out, as it could not be kept true. A stitching line inside cutting edges is
 * kept as drawn artwork, and the finding tells how far inside it lies: the allowance to strip.
 */
export const addOtherLine = (
  panel: Panel,
  other: Path | undefined,
  matrix: Matrix,
): { panel: Panel; findings: readonly Finding[] } => {
  if (other === undefined) return { panel, findings: [] };
  const where = `panel ${panel.name}`;
  if (panel.line === 'cutting') {
    const drawn = drawArtwork([other], matrix);
    const widths = flattenPath(transformPath(other, matrix), SAMPLE_TOLERANCE).map((p) => distanceToEdges(panel, p));
    const message = `both lines are drawn: the outer is the cutting line; the inner, ${range(widths)} inside it, is kept as a plain drawn line`;
    const cure = 'to use the inner line itself: --line stitching';
    const art = panel.art === undefined ? drawn : `${panel.art}\n${drawn}`;
    return { panel: { ...panel, art }, findings: [{ weight: 'note', kind: 'two-lines', where, message, cure }] };
  }
  const cutting = clockwise(roundPath(transformPath(other, matrix)));
  const widths = panel.edges.map((edge) => widthsAlong(edge.path, cutting));
  const uneven = panel.edges.find((_, at) => Math.max(...widths[at]!) - Math.min(...widths[at]!) > SAME_WIDTH);
  if (uneven !== undefined) {
    const along = range(widths[panel.edges.indexOf(uneven)]!);
    const message = `both lines are drawn; the cutting line is left out, as its allowance along ${uneven.name} varies (${along})`;
    const cure = 'draw it anew with add-allowance';
    return { panel, findings: [{ weight: 'warning', kind: 'two-lines', where, message, cure }] };
  }
  const edges = panel.edges.map((edge, at) => ({
    ...edge,
    allowance: roundNumber(widths[at]!.reduce((sum, width) => sum + width, 0) / PLACES),
  }));
  const named = edges.map((edge) => `${edge.name} ${edge.allowance.toFixed(2)} mm`).join(', ');
  const message = `both lines are drawn: the inner is the stitching line, the outer is kept as its cutting line (${named})`;
  return { panel: { ...panel, edges, cutting }, findings: [{ weight: 'note', kind: 'two-lines', where, message }] };
};

const clockwise = (path: Path): Path => (signedArea(path) < 0 ? reversePath(path) : path);

const distanceToEdges = (panel: Panel, p: Parameters<typeof nearestPoint>[1]): number =>
  Math.min(...panel.edges.map((edge) => nearestPoint(edge.path, p).distance));

const widthsAlong = (edge: Path, cutting: Path): number[] => {
  const length = pathLength(edge);
  return Array.from({ length: PLACES }, (_, step) => {
    const { segment, t } = locationAtLength(edge, length * (MARGIN + ((1 - 2 * MARGIN) * step) / (PLACES - 1)));
    return nearestPoint(cutting, pointOn(edge.segments[segment]!, t)).distance;
  });
};

const range = (widths: readonly number[]): string => {
  const [least, most] = [Math.min(...widths), Math.max(...widths)];
  return most - least < SAME_WIDTH
    ? `${((least + most) / 2).toFixed(2)} mm`
    : `${least.toFixed(1)} to ${most.toFixed(1)} mm`;
};
