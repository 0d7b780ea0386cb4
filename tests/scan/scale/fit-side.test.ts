import { describe, expect, it } from 'vitest';
import { fitSide, liesOff } from '../../../src/scan/scale/fit-side.ts';
import { chance, normal } from './draw-square.ts';

const places = (count: number): Float64Array => Float64Array.from({ length: count }, (_, k) => k - (count - 1) / 2);

describe('a line through the readings of a side', () => {
  const along = places(400);
  const straight = along.map((at) => 0.31 - 0.002 * at);

  it('is exact where they are', () => {
    const fit = fitSide({ along, offset: straight }, 2, 0.04)!;
    expect(fit.middle).toBeCloseTo(0.31, 12);
    expect(fit.slope).toBeCloseTo(-0.002, 14);
    expect(fit.good).toBe(1);
    expect(fit.middleVariance).toBeLessThan(1e-20);
  });

  it('is least squares where noise is all there is', () => {
    const random = chance(3);
    const noisy = straight.map((at) => at + 0.02 * normal(random));
    // Places lie evenly about 0: the mean and the first moment are the answer.
    const mean = noisy.reduce((sum, value) => sum + value, 0) / 400;
    const slope =
      noisy.reduce((sum, value, i) => sum + value * along[i]!, 0) / along.reduce((sum, x) => sum + x * x, 0);
    const fit = fitSide({ along, offset: noisy }, 2, 1)!;
    expect(Math.abs(fit.middle - mean)).toBeLessThan(2e-5);
    expect(Math.abs(fit.slope - slope)).toBeLessThan(2e-7);
    expect(Math.sqrt(fit.middleVariance)).toBeGreaterThan(0.0005);
    expect(Math.sqrt(fit.middleVariance)).toBeLessThan(0.002);
  });

  it('is not moved by a mark along two fifths of the side', () => {
    const random = chance(4);
    const marked = straight.map((at, k) => at + 0.02 * normal(random) + (k > 60 && k < 220 ? 0.4 : 0));
    const fit = fitSide({ along, offset: marked }, 2, 0.04)!;
    expect(Math.abs(fit.middle - 0.31)).toBeLessThan(0.005);
    expect(Math.abs(fit.slope + 0.002)).toBeLessThan(5e-5);
    expect(fit.good).toBeCloseTo(0.6, 1);
  });

  it('goes without what was not read', () => {
    const holes = straight.map((at, k) => (k % 3 === 0 || (k > 100 && k < 180) ? NaN : at));
    const fit = fitSide({ along, offset: holes }, 2, 0.04)!;
    expect(fit.middle).toBeCloseTo(0.31, 12);
    expect(fit.good).toBeCloseTo([...holes].filter((at) => !Number.isNaN(at)).length / 400, 12);
    expect(fitSide({ along, offset: straight.map(() => NaN) }, 2, 0.04)).toBeUndefined();
    expect(fitSide({ along: places(0), offset: places(0) }, 2, 0.04)).toBeUndefined();
  });

  it('does not hang on the order of the readings', () => {
    const offset = straight.map((at, k) => at + Math.sin(k));
    const back = fitSide({ along: along.toReversed(), offset: offset.toReversed() }, 5, 0.04)!;
    const fit = fitSide({ along, offset }, 5, 0.04)!;
    expect(back.middle).toBeCloseTo(fit.middle, 9);
    expect(back.middleVariance).toBeCloseTo(fit.middleVariance, 9);
  });

  it('knows what lies off the common width', () => {
    const widths = Float64Array.from([5, 5.01, 4.99, 5, NaN, 6, 5.02, 4]);
    expect(liesOff(widths, 0.02)).toEqual([false, false, false, false, true, true, false, true]);
  });
});
