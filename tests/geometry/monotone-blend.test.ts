import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { monotoneBlend } from '../../src/geometry/monotone-blend.ts';

const knotsFrom = (values: readonly number[], step: number) => values.map((value, i) => ({ at: i * step, value }));

describe('a monotone blend', () => {
  it('passes through its knots and never leaves the values of its neighbours', () => {
    const values = fc.array(fc.integer({ min: -20, max: 20 }), { minLength: 2, maxLength: 7 });
    fc.assert(
      fc.property(values, fc.constantFrom('flat' as const, 'free' as const), (heights, ends) => {
        const { value } = monotoneBlend(knotsFrom(heights, 30), ends);
        for (let i = 0; i + 1 < heights.length; i += 1) {
          const [low, high] = [Math.min(heights[i]!, heights[i + 1]!), Math.max(heights[i]!, heights[i + 1]!)];
          expect(value(i * 30)).toBeCloseTo(heights[i]!, 12);
          let before = heights[i]!;
          for (let k = 1; k <= 30; k += 1) {
            const now = value(i * 30 + k);
            expect(now).toBeGreaterThanOrEqual(low - 1e-12);
            expect(now).toBeLessThanOrEqual(high + 1e-12);
            expect((now - before) * (heights[i + 1]! - heights[i]!)).toBeGreaterThanOrEqual(-1e-9);
            before = now;
          }
        }
      }),
    );
  });

  it('has the slope that its values have', () => {
    const { value, slope } = monotoneBlend(knotsFrom([0, 3, 4, -8, -8, 1], 20), 'free');
    for (let x = 0.5; x < 100; x += 1) expect(slope(x)).toBeCloseTo((value(x + 1e-4) - value(x - 1e-4)) / 2e-4, 5);
  });

  it('leaves flat ends without a kink, and is constant beyond them', () => {
    const { value, slope } = monotoneBlend(knotsFrom([0, 6, 6], 50), 'flat');
    expect([slope(0), slope(100)]).toEqual([0, 0]);
    expect([value(-10), value(0), value(100), value(500)]).toEqual([0, 0, 6, 6]);
    expect(value(25)).toBe(3);
    expect([slope(-1), slope(200)]).toEqual([0, 0]);
  });

  it('is straight through knots in a line with free ends', () => {
    const { value, slope } = monotoneBlend(knotsFrom([0, 5, 10, 15], 10), 'free');
    expect(value(17)).toBeCloseTo(8.5, 12);
    expect(slope(3)).toBeCloseTo(0.5, 12);
  });

  it('is mirrored by mirrored knots where no slope has to be limited', () => {
    const knots = knotsFrom([0, 2, 5, 7], 10);
    const { value } = monotoneBlend(knots, 'free');
    const back = monotoneBlend(
      knots.map((k) => ({ at: -k.at, value: k.value })),
      'free',
    );
    for (let x = 0; x <= 30; x += 1) expect(back.value(-x)).toBeCloseTo(value(x), 12);
  });

  it('takes knots in any order, and one knot as a constant', () => {
    const a = monotoneBlend(
      [
        { at: 10, value: 4 },
        { at: 0, value: 1 },
      ],
      'flat',
    );
    expect([a.value(0), a.value(10)]).toEqual([1, 4]);
    const one = monotoneBlend([{ at: 3, value: 7 }], 'free');
    expect([one.value(-9), one.value(3), one.slope(3)]).toEqual([7, 7, 0]);
  });

  it('refuses no knots, and two values at one place', () => {
    expect(() => monotoneBlend([], 'flat')).toThrow('needs a knot');
    expect(() =>
      monotoneBlend(
        [
          { at: 1, value: 1 },
          { at: 1, value: 2 },
        ],
        'flat',
      ),
    ).toThrow('two values');
    expect(
      monotoneBlend(
        [
          { at: 1, value: 1 },
          { at: 1, value: 1 },
        ],
        'flat',
      ).value(1),
    ).toBe(1);
  });
});
