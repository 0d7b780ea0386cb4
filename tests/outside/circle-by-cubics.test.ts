/**
 * The error of a circle drawn with cubics.
 *
 * - Handles 4/3 tan(angle/4): for 90 degrees 0.5522847498, always outside, by at most 2.7253e-4 R; 0.551915024494 gives the best even
 *   error of 1.961e-4 R. "Approximate a circle with cubic Bezier curves" (S. Mortensen; from memory), read in a public copy.
 * - 60, 45 and 30 degrees: 2.386e-5, 4.246e-6 and 3.73e-7 R, computed independently.
 * - Four cubics at R = 100 have length 628.406679; the true circle 628.318531.
 */
import { describe, expect, it } from 'vitest';
import { pathLength } from '../../src/geometry/arc-length.ts';
import { pointOn } from '../../src/geometry/evaluate.ts';
import { fitCubic } from '../../src/geometry/fit-cubics.ts';
import type { Cubic, Segment } from '../../src/geometry/segment.ts';
import { circle, curve } from '../support/shapes.ts';

/** The largest and smallest distance from the unit circle, positive outside. */
const errorsOf = (s: Segment): { readonly most: number; readonly least: number } => {
  const errors = Array.from({ length: 20_001 }, (_, i) => {
    const p = pointOn(s, i / 20_000);
    return Math.hypot(p.x, p.y) - 1;
  });
  return { most: Math.max(...errors), least: Math.min(...errors) };
};

describe('one cubic for an arc', () => {
  it.each([
    [90, 0.5522847498, 2.7253e-4],
    [60, 0.3572655899, 2.386e-5],
    [45, 0.2652164898, 4.246e-6],
    [30, 0.1755366634, 3.73e-7],
  ])('of %d degrees with handles %d is outside by at most %d R', (degrees, handle, error) => {
    const pieces = 360 / degrees;
    expect((4 / 3) * Math.tan(Math.PI / (2 * pieces))).toBeCloseTo(handle, 9);
    const { most, least } = errorsOf(circle(1, pieces).segments[0]!);
    expect(most / error).toBeCloseTo(1, 2);
    expect(least).toBeGreaterThan(-1e-12);
  });

  it('of 90 degrees with handles 0.551915024494 errs evenly by 1.961e-4 R', () => {
    const c = 0.551915024494;
    const { most, least } = errorsOf(curve(1, 0, 1, c, c, 1, 0, 1).segments[0]!);
    expect(most).toBeCloseTo(1.961e-4, 7);
    expect(least).toBeCloseTo(-1.961e-4, 7);
  });

  it('fitted by least squares lies between the two', () => {
    const { cubic, error } = fitCubic(
      {
        point: (t) => ({ x: Math.cos(t), y: Math.sin(t) }),
        derivative: (t) => ({ dx: -Math.sin(t), dy: Math.cos(t) }),
      },
      0,
      Math.PI / 2,
    );
    const { startHandle }: Cubic = cubic;
    expect(startHandle.y).toBeGreaterThan(0.5519);
    expect(startHandle.y).toBeLessThan(0.55229);
    const { most, least } = errorsOf(cubic);
    expect(Math.max(most, -least)).toBeLessThan(2.7253e-4);
    expect(error / Math.max(most, -least)).toBeGreaterThan(0.97);
  });
});

describe('four cubics for a circle of radius 100', () => {
  it('have length 628.406679', () => {
    expect(pathLength(circle(100))).toBeCloseTo(628.406679, 5);
  });

  it('come to 2 pi R as they get more', () => {
    expect(pathLength(circle(100, 48))).toBeCloseTo(200 * Math.PI, 5);
  });
});
