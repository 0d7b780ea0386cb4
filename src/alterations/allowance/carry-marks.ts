import { tangentOn } from '../../geometry/evaluate.ts';
import { nearestPoint } from '../../geometry/nearest-point.ts';
import { movePoint } from '../../geometry/point.ts';
import { roundNumber, roundPoint } from '../../geometry/round-path.ts';
import { leftNormal, scaled, vectorTo } from '../../geometry/vector.ts';
import type { Finding } from '../../pattern/finding.ts';
import { levelSpan } from '../../pattern/level-span.ts';
import type { Level, Notch, Panel } from '../../pattern/panel.ts';

/** A notch that lands farther than this from the place square to it, in millimetres, lay where a corner was cut off. */
const NOTCH_SLIP = 0.5;

/**
 * The marks of a panel brought to the parallels of its edges, `widths` millimetres inside: each notch along the normal at its place
 * and with its own length, each level from the new edge to the new edge. Notches in a corner that was cut off stop at the new corner
 * and are told of, as are levels that are lost.
 */
export const carryMarks = (
  before: Panel,
  after: Panel,
  widths: readonly number[],
): { panel: Panel; findings: readonly Finding[] } => {
  const findings: Finding[] = [];
  const notches = before.notches.map((notch): Notch => {
    const at = before.edges.findIndex((edge) => edge.name === notch.edge);
    const from = before.edges[at];
    const to = after.edges[at];
    if (from === undefined || to === undefined) return notch;
    const { location, point } = nearestPoint(from.path, notch.at);
    const outwards = leftNormal(tangentOn(from.path.segments[location.segment]!, location.t));
    const square = movePoint(point, scaled(outwards, -widths[at]!));
    const carried = nearestPoint(to.path, square);
    if (carried.distance > NOTCH_SLIP) {
      const where = `panel ${after.name}, edge ${notch.edge}`;
      const message = `a notch lay in a corner of the allowance; it now marks the end of the edge, ${carried.distance.toFixed(1)} mm off`;
      findings.push({ weight: 'warning', kind: 'notch-in-corner', where, message });
    }
    const marked = roundPoint(carried.point);
    return { edge: notch.edge, at: marked, inner: roundPoint(movePoint(marked, vectorTo(notch.at, notch.inner))) };
  });
  const levels = before.levels.flatMap((level): Level[] => {
    const span = levelSpan(after, level.y);
    const where = `panel ${after.name}, ${level.name}`;
    if (span === undefined) {
      const message = `${level.name} lay in the allowance and is lost on this panel`;
      findings.push({ weight: 'warning', kind: 'level-off-panel', where, message });
      return [];
    }
    if (!span.meetsSeams && levelSpan(before, level.y)?.meetsSeams) {
      const message = `${level.name} no longer reaches both seams of the panel`;
      findings.push({ weight: 'warning', kind: 'level-meets-no-seam', where, message });
    }
    return [{ ...level, fromX: roundNumber(span.fromX), toX: roundNumber(span.toX) }];
  });
  return { panel: { ...after, notches, levels }, findings };
};
