/**
 * Monotone data on which ordinary splines overshoot: "RPN 14", given in the interpolation example of the GNU Scientific Library, which credits
 * Hyman, SIAM J. Sci. Stat. Comput. 4 (1983), and so named in an open spline library. The method is Fritsch and Carlson, SIAM
 * J. Numer. Anal. 17 (1980), itself not seen. Copies named "RPN15A" print the third value as 4.37498e-5: a slip, it is 4.37498e-2.
 * Values between the knots were computed independently for means of secants limited from left to right.
 */
import { describe, expect, it } from 'vitest';
import { monotoneBlend } from '../../src/geometry/monotone-blend.ts';

const X = [7.99, 8.09, 8.19, 8.7, 9.2, 10, 12, 15, 20];
const Y = [0, 2.76429e-5, 4.37498e-2, 0.169183, 0.469428, 0.94374, 0.998636, 0.999919, 0.999994];
const KNOTS = X.map((at, i) => ({ at, value: Y[i]! }));

const PLACES = Array.from({ length: 12_011 }, (_, i) => 7.99 + i / 1000);

/** The natural cubic spline: second derivatives from a tridiagonal system, zero at both ends. */
const naturalSpline = (x: readonly number[], y: readonly number[]): ((at: number) => number) => {
  const n = x.length;
  const second = Array.from({ length: n }, () => 0);
  const [c, d] = [second.slice(), second.slice()];
  for (let i = 1; i < n - 1; i += 1) {
    const [h, k] = [x[i]! - x[i - 1]!, x[i + 1]! - x[i]!];
    const right = 6 * ((y[i + 1]! - y[i]!) / k - (y[i]! - y[i - 1]!) / h);
    const pivot = 2 * (h + k) - h * c[i - 1]!;
    c[i] = k / pivot;
    d[i] = (right - h * d[i - 1]!) / pivot;
  }
  for (let i = n - 2; i > 0; i -= 1) second[i] = d[i]! - c[i]! * second[i + 1]!;
  return (at) => {
    const i = Math.max(
      1,
      x.findIndex((knot) => knot >= at),
    );
    const h = x[i]! - x[i - 1]!;
    const [a, b] = [(x[i]! - at) / h, (at - x[i - 1]!) / h];
    const bend = ((a ** 3 - a) * second[i - 1]! + (b ** 3 - b) * second[i]!) * h * h;
    return a * y[i - 1]! + b * y[i]! + bend / 6;
  };
};

const largestDrop = (value: (x: number) => number): number => {
  let [drop, before] = [0, -Infinity];
  for (const x of PLACES) {
    const now = value(x);
    if (before > now) drop = Math.max(drop, before - now);
    before = Math.max(now, before);
  }
  return drop;
};

describe('a blend through monotone data', () => {
  it.each(['free', 'flat'] as const)('is monotone with %s ends', (ends) => {
    const { value } = monotoneBlend(KNOTS, ends);
    expect(largestDrop(value)).toBeLessThan(1e-12);
    expect(Math.max(...PLACES.map(value))).toBeLessThanOrEqual(Y.at(-1)!);
  });

  it('has the values of means of secants limited from left to right', () => {
    const { value } = monotoneBlend(KNOTS, 'free');
    expect(value(9.6)).toBeCloseTo(0.758026901, 8);
    expect(value(11)).toBeCloseTo(0.991433071, 8);
  });

  it('is where a natural spline fails, by a tenth above and a little below', () => {
    const spline = naturalSpline(X, Y);
    for (const [i, x] of X.entries()) expect(spline(x)).toBeCloseTo(Y[i]!, 12);
    const values = PLACES.map(spline);
    expect(Math.max(...values)).toBeCloseTo(1.101188, 5);
    expect(Math.min(...values)).toBeCloseTo(-0.004543, 5);
    expect(largestDrop(spline)).toBeGreaterThan(0.1);
  });

  it('would not be this data with 4.37498e-5: the slip gives another curve, just as monotone', () => {
    const slipped = KNOTS.map((knot, i) => (i === 2 ? { at: knot.at, value: 4.37498e-5 } : knot));
    const { value } = monotoneBlend(slipped, 'free');
    expect(largestDrop(value)).toBeLessThan(1e-12);
    expect(value(8.19)).toBeLessThan(5e-5);
    expect(monotoneBlend(KNOTS, 'free').value(8.19)).toBe(4.37498e-2);
    expect(
      naturalSpline(
        X,
        slipped.map((knot) => knot.value),
      )(8.0476),
    ).not.toBeCloseTo(-0.004543, 4);
  });
});
