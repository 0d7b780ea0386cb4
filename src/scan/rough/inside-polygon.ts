import type { Point } from '../../geometry/point.ts';

/** Whether a place lies inside a closed polygon, by the crossings to its right. */
export const insidePolygon = (points: readonly Point[], { x, y }: Point): boolean => {
  let inside = false;
  for (let k = 0, before = points.length - 1; k < points.length; before = k, k += 1) {
    const [p, q] = [points[before]!, points[k]!];
    if (p.y > y !== q.y > y && x < p.x + ((q.x - p.x) * (y - p.y)) / (q.y - p.y)) inside = !inside;
  }
  return inside;
};
