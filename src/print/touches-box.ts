import type { Box } from '../geometry/box.ts';
import type { Point } from '../geometry/point.ts';

/**
 * Whether a closed polygon and a box (limits included) have a point in common: an edge within it or through it,
 * or the whole box inside the polygon. A polygon of fewer than two points never does.
 */
export const touchesBox = (polygon: readonly Point[], box: Box): boolean => {
  let inside = false;
  const [cx, cy] = [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
  for (let at = 0; at < polygon.length; at++) {
    const a = polygon[at]!;
    const b = polygon[(at + 1) % polygon.length]!;
    if (lineTouchesBox(a, b, box)) return true;
    if (a.y > cy !== b.y > cy && cx < a.x + ((cy - a.y) / (b.y - a.y)) * (b.x - a.x)) inside = !inside;
  }
  return inside;
};

/** Whether the straight line from `a` to `b` and a box (limits included) have a point in common: Liang and Barsky's clipping. */
export const lineTouchesBox = (a: Point, b: Point, box: Box): boolean => {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  let from = 0;
  let to = 1;
  const cut = (step: number, room: number): boolean => {
    if (step === 0) return room >= 0;
    if (step < 0) from = Math.max(from, room / step);
    else to = Math.min(to, room / step);
    return from <= to;
  };
  return cut(-dx, a.x - box.minX) && cut(dx, box.maxX - a.x) && cut(-dy, a.y - box.minY) && cut(dy, box.maxY - a.y);
};
