import { looseBox } from './box.ts';
import { pointOn } from './evaluate.ts';
import type { Location, Path } from './path.ts';
import { distance, type Point } from './point.ts';
import type { Cubic, Segment } from './segment.ts';
import { rootsOf } from './solve-roots.ts';

/** Bernstein coefficients (degree 5) of (curve - p) . derivative, whose roots are the places where the curve is square to p. */
const squareToward = (s: Cubic, p: Point): number[] => {
  const v = [s.start, s.startHandle, s.endHandle, s.end].map((q) => ({ x: q.x - p.x, y: q.y - p.y }));
  const d = [0, 1, 2].map((i) => ({ x: v[i + 1]!.x - v[i]!.x, y: v[i + 1]!.y - v[i]!.y }));
  const three = [1, 3, 3, 1];
  const two = [1, 2, 1];
  const five = [1, 5, 10, 10, 5, 1];
  const sum = [0, 0, 0, 0, 0, 0];
  for (let i = 0; i < 4; i += 1) {
    for (let j = 0; j < 3; j += 1) {
      const product = v[i]!.x * d[j]!.x + v[i]!.y * d[j]!.y;
      sum[i + j]! += (product * three[i]! * two[j]!) / five[i + j]!;
    }
  }
  return sum;
};

const candidates = (s: Segment, p: Point): number[] => {
  if (s.kind === 'cubic') return [0, ...rootsOf(squareToward(s, p)), 1];
  const dx = s.end.x - s.start.x;
  const dy = s.end.y - s.start.y;
  const square = dx * dx + dy * dy;
  if (square === 0) return [0];
  const t = ((p.x - s.start.x) * dx + (p.y - s.start.y) * dy) / square;
  return [Math.min(1, Math.max(0, t))];
};

const distanceToBox = (s: Segment, p: Point): number => {
  const box = looseBox(s);
  const dx = Math.max(box.minX - p.x, 0, p.x - box.maxX);
  const dy = Math.max(box.minY - p.y, 0, p.y - box.maxY);
  return Math.hypot(dx, dy);
};

/**
 * The place on the path nearest to `p`, with its point and distance: the true nearest of all, not a local one, because every
 * place where the curve is square to `p` is looked at. Of several equally near, the first.
 */
export const nearestPoint = (path: Path, p: Point): { location: Location; point: Point; distance: number } => {
  const first = path.segments[0]!.start;
  let best = { location: { segment: 0, t: 0 }, point: first, distance: distance(first, p) };
  for (const [segment, s] of path.segments.entries()) {
    if (distanceToBox(s, p) >= best.distance) continue;
    for (const t of candidates(s, p)) {
      const at = pointOn(s, t);
      const away = distance(at, p);
      if (away < best.distance) best = { location: { segment, t }, point: at, distance: away };
    }
  }
  return best;
};
