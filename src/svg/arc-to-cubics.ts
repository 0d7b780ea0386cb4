/**
 * Elliptical arcs as cubics, by the centre parametrisation of SVG 2, implementation notes: radii that are too small are scaled
 * up, negative ones made positive. A cubic with handles 4/3 tan(θ/4) stays within 2.73e-4 R (θ/90°)^6 of its arc.
 */
import { point, type Point } from '../geometry/point.ts';

const QUARTER_ERROR = 2.73e-4;

/** Pieces of a quarter: enough for a micrometre on a radius of 100,000 km. */
const MOST_PIECES = 64;

export interface Arc {
  readonly rx: number;
  readonly ry: number;
  /** Turn of the ellipse's x axis in degrees; positive is clockwise on paper. */
  readonly turn: number;
  readonly large: boolean;
  /** Whether the angle grows along the arc: clockwise on paper. */
  readonly sweep: boolean;
}

export interface CentredArc {
  readonly centre: Point;
  readonly rx: number;
  readonly ry: number;
  /** Radians. */
  readonly turn: number;
  readonly startAngle: number;
  readonly sweepAngle: number;
}

/**
 * Centre, true radii and angles of an arc between two points.
 * Undefined where there is no arc: equal ends (nothing to draw) or a radius of 0 (a straight line).
 */
export const centredArc = (from: Point, to: Point, arc: Arc): CentredArc | undefined => {
  let [rx, ry] = [Math.abs(arc.rx), Math.abs(arc.ry)];
  if ((from.x === to.x && from.y === to.y) || rx === 0 || ry === 0) return undefined;
  const turn = ((arc.turn % 360) * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const [halfX, halfY] = [(from.x - to.x) / 2, (from.y - to.y) / 2];
  const x = cos * halfX + sin * halfY;
  const y = -sin * halfX + cos * halfY;
  const reach = Math.hypot(x / rx, y / ry);
  if (reach > 1) [rx, ry] = [rx * reach, ry * reach];
  const [unitX, unitY] = [x / rx, y / ry];
  const square = unitX ** 2 + unitY ** 2;
  const root = Math.sqrt(Math.max(0, 1 / square - 1)) * (arc.large === arc.sweep ? -1 : 1);
  const [cx, cy] = [root * unitY, -root * unitX];
  const startAngle = Math.atan2(unitY - cy, unitX - cx);
  let sweepAngle = Math.atan2(-unitY - cy, -unitX - cx) - startAngle;
  if (arc.sweep && sweepAngle < 0) sweepAngle += 2 * Math.PI;
  if (!arc.sweep && sweepAngle > 0) sweepAngle -= 2 * Math.PI;
  const centre = point(
    cos * cx * rx - sin * cy * ry + (from.x + to.x) / 2,
    sin * cx * rx + cos * cy * ry + (from.y + to.y) / 2,
  );
  return { centre, rx, ry, turn, startAngle, sweepAngle };
};

export interface ArcPiece {
  readonly startHandle: Point;
  readonly endHandle: Point;
  readonly end: Point;
}

/** As few equal cubics as stay within `tolerance` (same units as the radii) of the arc, one a quarter at least. */
export const arcToCubics = (arc: CentredArc, tolerance: number): ArcPiece[] => {
  const { centre, rx, ry, startAngle, sweepAngle } = arc;
  const quarters = Math.abs(sweepAngle) / (Math.PI / 2);
  const finer = Math.min(MOST_PIECES, Math.max(1, ((Math.max(rx, ry) * QUARTER_ERROR) / tolerance) ** (1 / 6)));
  const count = Math.max(1, Math.ceil(quarters * finer - 1e-9));
  const step = sweepAngle / count;
  const handle = (4 / 3) * Math.tan(step / 4);
  const [cos, sin] = [Math.cos(arc.turn), Math.sin(arc.turn)];
  const place = (x: number, y: number): Point =>
    point(centre.x + cos * x * rx - sin * y * ry, centre.y + sin * x * rx + cos * y * ry);
  return Array.from({ length: count }, (_, i) => {
    const [from, to] = [startAngle + i * step, startAngle + (i + 1) * step];
    const [c0, s0, c1, s1] = [Math.cos(from), Math.sin(from), Math.cos(to), Math.sin(to)];
    return {
      startHandle: place(c0 - handle * s0, s0 + handle * c0),
      endHandle: place(c1 + handle * s1, s1 - handle * c1),
      end: place(c1, s1),
    };
  });
};
