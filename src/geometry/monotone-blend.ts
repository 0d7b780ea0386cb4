/** A smooth curve through given values that never overshoots them: piecewise cubic with slopes limited after Fritsch and Carlson. */

export interface Knot {
  readonly at: number;
  readonly value: number;
}

export interface Blend {
  readonly value: (x: number) => number;
  readonly slope: (x: number) => number;
}

/** The slopes at the knots: means of the secants, 0 at a turn, then pulled back into the circle of radius 3 from left to right. */
const limitedSlopes = (x: readonly number[], y: readonly number[], ends: 'flat' | 'free'): number[] => {
  const last = x.length - 1;
  const secants = x.slice(1).map((at, i) => (y[i + 1]! - y[i]!) / (at - x[i]!));
  const slopes = x.map((_, i) => {
    if (i === 0) return ends === 'flat' ? 0 : secants[0]!;
    if (i === last) return ends === 'flat' ? 0 : secants[last - 1]!;
    return secants[i - 1]! * secants[i]! <= 0 ? 0 : (secants[i - 1]! + secants[i]!) / 2;
  });
  for (const [i, secant] of secants.entries()) {
    if (secant === 0) {
      slopes[i] = 0;
      slopes[i + 1] = 0;
      continue;
    }
    const reach = Math.hypot(slopes[i]! / secant, slopes[i + 1]! / secant);
    if (reach <= 3) continue;
    slopes[i] = (slopes[i]! * 3) / reach;
    slopes[i + 1] = (slopes[i + 1]! * 3) / reach;
  }
  return slopes;
};

/**
 * A blend through the knots, which may come in any order; two at one place must agree, or it throws.
 * Between neighbouring knots it stays between their values; beyond the outermost it is constant. `flat` ends have slope 0 there, so that
 * the whole is without a kink; `free` ends keep the slope of the outermost secant. One knot gives a constant.
 * After Fritsch and Carlson, SIAM J. Numer. Anal. 17 (1980).
 */
export const monotoneBlend = (knots: readonly Knot[], ends: 'flat' | 'free'): Blend => {
  const sorted = knots.toSorted((a, b) => a.at - b.at).filter((k, i, all) => i === 0 || k.at !== all[i - 1]!.at);
  if (sorted.length === 0) throw new Error('a blend needs a knot');
  if (knots.some((k) => sorted.some((s) => s.at === k.at && s.value !== k.value))) {
    throw new Error('a blend cannot have two values at one place');
  }
  const x = sorted.map((k) => k.at);
  const y = sorted.map((k) => k.value);
  const last = x.length - 1;
  if (last === 0) return { value: () => y[0]!, slope: () => 0 };
  const m = limitedSlopes(x, y, ends);
  const intervalOf = (at: number): number => {
    const next = x.findIndex((knot) => knot > at);
    return next === -1 ? last - 1 : Math.max(0, next - 1);
  };
  return {
    value: (at) => {
      if (at <= x[0]!) return y[0]!;
      if (at >= x[last]!) return y[last]!;
      const i = intervalOf(at);
      const h = x[i + 1]! - x[i]!;
      const t = (at - x[i]!) / h;
      const u = 1 - t;
      const rise = t * t * (3 - 2 * t);
      return y[i]! + (y[i + 1]! - y[i]!) * rise + h * t * u * (m[i]! * u - m[i + 1]! * t);
    },
    slope: (at) => {
      if (at < x[0]! || at > x[last]!) return 0;
      const i = intervalOf(at);
      const h = x[i + 1]! - x[i]!;
      const t = (at - x[i]!) / h;
      const u = 1 - t;
      return (6 * t * u * (y[i + 1]! - y[i]!)) / h + m[i]! * u * (u - 2 * t) + m[i + 1]! * t * (t - 2 * u);
    },
  };
};
