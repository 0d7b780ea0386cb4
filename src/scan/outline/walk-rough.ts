/** The stations along an outline that is only roughly known: its polygon, smoothed so that its normals do not follow the pixels. */
import type { Point } from '../../geometry/point.ts';
import { DRAFT_SPACING, emptyStations, lengthRound, stationCount, type Stations } from './stations.ts';

/** The polygon is averaged over so much of its length, three times over, in millimetres. */
const SMOOTHED = 0.7;
const TIMES = 3;

/** The means of `2 half + 1` neighbours round a ring. */
const averaged = (values: Float64Array, half: number): Float64Array => {
  const n = values.length;
  const means = new Float64Array(n);
  let sum = 0;
  for (let k = -half; k <= half; k++) sum += values[((k % n) + n) % n]!;
  for (let k = 0; k < n; k++) {
    means[k] = sum / (2 * half + 1);
    sum += values[(k + half + 1) % n]! - values[(((k - half) % n) + n) % n]!;
  }
  return means;
};

/** Clockwise points in picture places, closed, the first not repeated; stations stand `spacing` millimetres apart. */
export const walkRough = (points: readonly Point[], pxPerMm: number, spacing: number = DRAFT_SPACING): Stations => {
  const length = lengthRound(points);
  const count = stationCount(length, pxPerMm, spacing);
  const stations = emptyStations(count, length / count);
  let { x, y } = stations;

  let [corner, walked] = [0, 0];
  for (let k = 0; k < count; k++) {
    const wanted = k * stations.spacing;
    for (;;) {
      const [a, b] = [points[corner % points.length]!, points[(corner + 1) % points.length]!];
      const side = Math.hypot(b.x - a.x, b.y - a.y);
      if (wanted <= walked + side || corner >= points.length) {
        const t = side === 0 ? 0 : Math.min(1, (wanted - walked) / side);
        x[k] = a.x + (b.x - a.x) * t;
        y[k] = a.y + (b.y - a.y) * t;
        break;
      }
      walked += side;
      corner++;
    }
  }

  const half = Math.min(count >> 3, Math.max(1, Math.round((SMOOTHED * pxPerMm) / stations.spacing / 2)));
  for (let time = 0; time < TIMES; time++) [x, y] = [averaged(x, half), averaged(y, half)];
  for (let k = 0; k < count; k++) {
    const [before, after] = [(k + count - 1) % count, (k + 1) % count];
    const [dx, dy] = [x[after]! - x[before]!, y[after]! - y[before]!];
    const size = Math.hypot(dx, dy) || 1;
    stations.nx[k] = dy / size;
    stations.ny[k] = -dx / size;
  }
  return { ...stations, x, y };
};
