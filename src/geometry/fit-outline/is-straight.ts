import type { Noise } from './measure-noise.ts';
import type { Node } from './outline-model.ts';
import type { Ring } from './ring.ts';

/** A bend is one when it is so many times its doubt, and when it shows. */
const SURE_BEND = 5;
const BEND_MM = 0.001;
/** A stretch lies beside the line when it is so many times its doubt, and when it shows. */
const STRETCH_MM = 5;
const SURE_STRETCH = 4.5;
const SHOWS_MM = 0.003;
const DEGREE = 3;

/**
 * Whether the places between two nodes, up to `to` along the ring, lie on a straight line as far as their noise tells: neither a parabola
 * nor a cubic fits them better, and no stretch of them lies beside the line.
 */
export const isStraight = (
  thin: Ring,
  weights: Float64Array,
  a: Node,
  b: Node,
  to: number,
  noise: Noise,
  pxPerMm: number,
): boolean => {
  // The readings' distances from the chord, fitted by a line and by a parabola and a cubic beside it.
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  const [dx, dy] = [(b.x - a.x) / length, (b.y - a.y) / length];
  const places: [number, number, number][] = [];
  for (let i = 0; i < 2 * thin.count; i += 1) {
    const along = thin.along[thin.count + i] ?? Infinity;
    if (along < a.along || along > to) continue;
    const w = weights[i % thin.count]!;
    if (w === 0) continue;
    const [x, y] = [thin.x[thin.count + i]! - a.x, thin.y[thin.count + i]! - a.y];
    places.push([(2 * (x * dx + y * dy)) / length - 1, y * dx - x * dy, w]);
  }
  if (places.length < 3) return true;
  const variance = noise.sigma * noise.sigma * noise.correlation;
  // Legendre-like terms made orthogonal on these very places, so that each one's share of the squares stands alone.
  const terms: Float64Array[] = [];
  const left = Float64Array.from(places, (p) => p[1]);
  for (let degree = 0; degree <= Math.min(DEGREE, places.length - 1); degree += 1) {
    const term = Float64Array.from(places, (p) => p[0] ** degree);
    const inner = (u: Float64Array, v: Float64Array): number => u.reduce((s, e, i) => s + e * v[i]! * places[i]![2], 0);
    for (const other of terms) {
      const share = inner(term, other) / inner(other, other);
      for (let i = 0; i < term.length; i += 1) term[i]! -= share * other[i]!;
    }
    const size = inner(term, term);
    const share = inner(left, term) / size;
    if (degree >= 2 && share * share * size > SURE_BEND * SURE_BEND * variance) {
      const bend = Math.max(...term.map((e) => Math.abs(e * share)));
      if (bend > BEND_MM * pxPerMm) return false;
    }
    for (let i = 0; i < left.length; i += 1) left[i]! -= share * term[i]!;
    terms.push(term);
  }
  let [sum, weight, from] = [0, 0, -Infinity];
  const widest = (2 * STRETCH_MM * pxPerMm) / length;
  for (const [i, [u, , w]] of places.entries()) {
    if (u - from > widest || i === places.length - 1) {
      if (
        weight > 0 &&
        Math.abs(sum / weight) > Math.max(SURE_STRETCH * Math.sqrt(variance / weight), SHOWS_MM * pxPerMm)
      )
        return false;
      [sum, weight, from] = [0, 0, u];
    }
    sum += w * left[i]!;
    weight += w;
  }
  return true;
};
