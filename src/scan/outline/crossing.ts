/** Rounds of Newton's method; the third changes nothing that shows. */
const ROUNDS = 3;

/**
 * Where samples cross `level` between number `k` and the next one: a share of the way, by the cubic through their neighbours as well
 * (Catmull and Rom); a straight line between the two would be off by up to 0.04 of a pixel at the shoulders of an edge.
 */
export const crossing = (samples: Float64Array, k: number, level: number): number => {
  const b = samples[k]! - level;
  const c = samples[k + 1]! - level;
  const a = k > 0 ? samples[k - 1]! - level : 2 * b - c;
  const d = k + 2 < samples.length ? samples[k + 2]! - level : 2 * c - b;
  const [p, q, r] = [(3 * (b - c) + d - a) / 2, a - 2.5 * b + 2 * c - d / 2, (c - a) / 2];
  let t = b / (b - c);
  for (let round = 0; round < ROUNDS; round++) {
    const slope = (3 * p * t + 2 * q) * t + r;
    const next = t - (((p * t + q) * t + r) * t + b) / slope;
    if (!(next >= 0 && next <= 1)) return t;
    t = next;
  }
  return t;
};
