import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bernsteinAt, rootsOf } from '../../src/geometry/solve-roots.ts';

/** Bernstein coefficients of the product of (t - root). */
const withRoots = (roots: readonly number[]): number[] => {
  let c = [1];
  for (const root of roots) {
    const n = c.length;
    c = Array.from({ length: n + 1 }, (_, i) => {
      const low = i < n ? c[i]! * -root * ((n - i) / n) : 0;
      const high = i > 0 ? c[i - 1]! * (1 - root) * (i / n) : 0;
      return low + high;
    });
  }
  return c;
};

describe('roots in [0, 1]', () => {
  it('are found wherever they lie, for any degree up to 5', () => {
    const root = fc.integer({ min: 0, max: 20 }).map((n) => n / 20);
    fc.assert(
      fc.property(fc.uniqueArray(root, { minLength: 1, maxLength: 5 }), (roots) => {
        const found = rootsOf(withRoots(roots));
        const wanted = roots.toSorted((a, b) => a - b);
        expect(found).toHaveLength(wanted.length);
        for (const [i, t] of found.entries()) expect(t).toBeCloseTo(wanted[i]!, 9);
      }),
    );
  });

  it('leave roots outside alone', () => {
    expect(rootsOf(withRoots([-0.5, 0.25, 1.5]))).toEqual([expect.closeTo(0.25, 14)]);
    expect(rootsOf([3, 1, 2, 5])).toEqual([]);
  });

  it('are found when the leading coefficient all but vanishes', () => {
    const c = [-4, -1, 2, 5];
    expect(rootsOf([c[0]!, c[1]!, c[2]!, c[3]! + 4e-16])).toEqual([expect.closeTo(4 / 9, 14)]);
  });

  it('are two where the curve dips by a millionth', () => {
    const found = rootsOf([1, -1 - 4e-6, 1].map((v) => v));
    expect(found).toHaveLength(2);
    expect(found[1]! - found[0]!).toBeCloseTo(Math.sqrt(2e-6), 4);
  });

  it('are both ends where both are zero, and none for the zero polynomial', () => {
    expect(rootsOf([0, 5, 5, 0])).toEqual([0, 1]);
    expect(rootsOf([0, 0, 0, 0])).toEqual([]);
  });

  it('end quickly on what is nearly zero everywhere', () => {
    expect(rootsOf([1e-300, -1e-300, 1e-300, -1e-300, 1e-300, -1e-300]).length).toBeLessThanOrEqual(5);
  });
});

describe('a value', () => {
  it('is the first coefficient at 0 and the last at 1', () => {
    expect(bernsteinAt([7, 1, 2, 9], 0)).toBe(7);
    expect(bernsteinAt([7, 1, 2, 9], 1)).toBe(9);
    expect(bernsteinAt([0, 1, 2, 3], 0.4)).toBeCloseTo(1.2, 14);
  });
});
