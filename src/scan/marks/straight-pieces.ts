import type { Point } from '../../geometry/point.ts';
import { line, type Line } from '../../geometry/segment.ts';

/** Points of a chain, first and last with them, so that the chain stays within `tolerance` of the straight lines between them (Douglas, Peucker 1973). */
export const fewPoints = (points: readonly Point[], tolerance: number): Point[] => {
  const keep = new Uint8Array(points.length);
  keep[0] = keep[points.length - 1] = 1;
  const spans: [number, number][] = [[0, points.length - 1]];
  for (let span = spans.pop(); span; span = spans.pop()) {
    const [from, to] = span;
    const [a, b] = [points[from]!, points[to]!];
    const [ux, uy] = [b.x - a.x, b.y - a.y];
    const long = Math.hypot(ux, uy);
    let [far, at] = [tolerance, -1];
    for (let i = from + 1; i < to; i += 1) {
      const [x, y] = [points[i]!.x - a.x, points[i]!.y - a.y];
      const off = long === 0 ? Math.hypot(x, y) : Math.abs(ux * y - uy * x) / long;
      if (off > far) [far, at] = [off, i];
    }
    if (at < 0) continue;
    keep[at] = 1;
    spans.push([from, at], [at, to]);
  }
  return points.filter((_, i) => keep[i] === 1);
};

/** The straight pieces of a chain. */
export const straightPieces = (points: readonly Point[], tolerance: number): Line[] => {
  const few = fewPoints(points, tolerance);
  return few.slice(1).map((p, i) => line(few[i]!, p));
};
