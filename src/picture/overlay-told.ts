import { locationAtLength, pathLength } from '../geometry/arc-length.ts';
import { pointOn } from '../geometry/evaluate.ts';
import { crossHorizontal } from '../geometry/intersect.ts';
import type { Matrix } from '../geometry/matrix.ts';
import { nearestPoint } from '../geometry/nearest-point.ts';
import type { Path } from '../geometry/path.ts';
import type { Point } from '../geometry/point.ts';
import { transformPath, transformPoint } from '../geometry/transform-path.ts';
import { formatSigned, shortLength } from '../pattern/format-length.ts';
import type { Units } from '../pattern/pattern.ts';
import type { Amount } from './overlay-amounts.ts';
import { outlinesOf, type Overlaid, type OverlayEdge } from './overlay-panel.ts';
import { SEEN_APART } from './overlay-stretches.ts';

/** A move that is told: by how much, and where, in the coordinates of the panel as it is drawn. */
interface ToldMove {
  readonly text: string;
  readonly at: Point;
  readonly side: Amount['side'];
}

/** The greatest move of each stretch that changed, of those that are not told as nothing. */
export const toldMoves = (panel: Overlaid, units: Units): ToldMove[] =>
  (panel.found?.edges ?? [])
    .filter(({ kind }) => kind === 'moved')
    .flatMap((edge) => {
      const side = sideOf(panel, edge);
      return movesOf(panel, edge, side).flatMap(({ by, at }) => {
        const text = edge.place === 'other' ? shortLength(by, units, true) : signedText(by, units);
        return Math.abs(by) > SEEN_APART && /[1-9]/.test(text) ? [{ text, at, side }] : [];
      });
    });

/** With its sign, to a hundredth of a millimetre: lines that moved alike are told alike. */
export const signedText = (mm: number, units: Units): string =>
  units === 'mm' ? formatSigned(mm, units).replace(' mm', '') : `${mm > 0 ? '+' : ''}${shortLength(mm, units, true)}`;

/** The amounts of a panel on the picture. */
export const panelAmounts = (panel: Overlaid, place: Matrix, units: Units): Amount[] => {
  const lines = outlinesOf(panel).map((path) => transformPath(path, place));
  return toldMoves(panel, units).map(({ at, ...told }) => ({ ...told, at: transformPoint(at, place), lines }));
};

const isRight = ({ after }: Overlaid): boolean => after?.side === 'right';

const sideOf = (panel: Overlaid, { place }: OverlayEdge): Amount['side'] => {
  if (place === 'top' || place === 'bottom') return place;
  return (place === 'front') !== isRight(panel) ? 'left' : 'right';
};

interface Move {
  readonly by: number;
  readonly at: Point;
}

/** One move for each stretch; the greatest of them is the edge's own, as the comparison found it. */
const movesOf = (panel: Overlaid, edge: OverlayEdge, side: Amount['side']): Move[] => {
  const former = panel.before?.edges.find(({ name }) => name === edge.edge)?.path;
  const stretches = panel.changed.filter((stretch) => stretch.edge === edge.edge);
  const x = ((edge.from.x + edge.to.x) / 2) * (isRight(panel) ? -1 : 1);
  const own = { by: edge.most, at: { x, y: (edge.from.y + edge.to.y) / 2 } };
  if (former === undefined || stretches.length < 2) return [own];
  const moves = stretches.map(({ line }) => greatestMove(former, line, side));
  const most = Math.max(...moves.map(({ by }) => Math.abs(by)));
  return moves.map((move) => (Math.abs(move.by) === most ? own : move));
};

/** From one place that is looked at to the next along a stretch. Millimetres. */
const STEP = 1.5;

/** Of a seam along the level, outwards; of a top or bottom edge to the nearest point of the former line, upwards. */
const greatestMove = (former: Path, line: Path, side: Amount['side']): Move => {
  const length = pathLength(line);
  const count = Math.max(1, Math.ceil(length / STEP));
  const moves = Array.from({ length: count + 1 }, (_, i): Move => {
    const { segment, t } = locationAtLength(line, (length * i) / count);
    const at = pointOn(line.segments[segment]!, t);
    return { by: moveAt(former, at, side), at };
  });
  return moves.reduce((best, move) => (Math.abs(move.by) > Math.abs(best.by) ? move : best));
};

const moveAt = (former: Path, at: Point, side: Amount['side']): number => {
  if (side === 'top' || side === 'bottom') {
    const { point, distance } = nearestPoint(former, at);
    return point.y > at.y ? distance : -distance;
  }
  const across = crossHorizontal(former, at.y).map(({ point }) => at.x - point.x);
  const by = across.reduce((best, dx) => (Math.abs(dx) < Math.abs(best) ? dx : best), across[0] ?? 0);
  return side === 'left' ? -by : by;
};
