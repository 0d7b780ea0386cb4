/**
 * Lengths of curves that are known in closed form.
 *
 * - Parabola y = a x^2: s = x/2 sqrt(1 + 4 a^2 x^2) + asinh(2 a x)/(4 a); PlanetMath, "arc length of parabola" (pahio, 2009).
 *   An arc of a parabola is exactly a quadratic, and so a cubic, Bezier curve.
 * - The cubic (0,0) (0,40) (100,40) (100,0): its length was computed independently by summing two million chords.
 */
import { describe, expect, it } from 'vitest';
import { pathLength } from '../../src/geometry/arc-length.ts';
import { point } from '../../src/geometry/point.ts';
import { curve, quadratic } from '../support/shapes.ts';

/** y = a x^2 from 0 to x: the control point lies where the end tangents cross. */
const parabola = (a: number, x: number) => quadratic(point(0, 0), point(x / 2, 0), point(x, a * x * x));

describe('the length of a parabola', () => {
  it('y = x^2 to x = 1 is (sqrt 5)/2 + ln(2 + sqrt 5)/4', () => {
    const known = Math.sqrt(5) / 2 + Math.log(2 + Math.sqrt(5)) / 4;
    expect(known).toBeCloseTo(1.4789428576, 9);
    expect(pathLength(parabola(1, 1), 1e-9)).toBeCloseTo(known, 9);
  });

  it('y = x^2/40 to x = 100 is 278.075359', () => {
    expect(pathLength(parabola(1 / 40, 100))).toBeCloseTo(278.075359, 4);
  });

  it('from its apex to the end of the latus rectum is (sqrt 2 + ln(1 + sqrt 2))/(4a)', () => {
    for (const a of [0.002, 0.01, 0.25]) {
      const known = (Math.SQRT2 + Math.log(1 + Math.SQRT2)) / (4 * a);
      expect(pathLength(parabola(a, 1 / (2 * a)))).toBeCloseTo(known, 4);
    }
  });
});

describe('the length of a cubic', () => {
  it('(0,0) (0,40) (100,40) (100,0) is 128.7927998', () => {
    expect(pathLength(curve(0, 0, 0, 40, 100, 40, 100, 0))).toBeCloseTo(128.7927998, 6);
  });
});
