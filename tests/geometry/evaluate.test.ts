import { Bezier } from 'bezier-js';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { curvatureOn, derivativeOn, pointOn, secondDerivativeOn, tangentOn } from '../../src/geometry/evaluate.ts';
import { point } from '../../src/geometry/point.ts';
import { cubic, line } from '../../src/geometry/segment.ts';
import { magnitude } from '../../src/geometry/vector.ts';
import { anyCubic, anyParameter } from '../support/arbitrary-curves.ts';

describe('values on a segment', () => {
  it('agree with another library on any cubic', () => {
    fc.assert(
      fc.property(anyCubic, anyParameter, (s, t) => {
        const other = new Bezier([s.start, s.startHandle, s.endHandle, s.end]);
        const [p, d] = [other.compute(t), other.derivative(t)];
        expect(Math.hypot(pointOn(s, t).x - p.x, pointOn(s, t).y - p.y)).toBeLessThan(1e-10);
        expect(Math.hypot(derivativeOn(s, t).dx - d.x, derivativeOn(s, t).dy - d.y)).toBeLessThan(1e-9);
      }),
    );
  });

  it('change as the derivative does', () => {
    fc.assert(
      fc.property(anyCubic, fc.double({ min: 0.01, max: 0.99, noNaN: true }), (s, t) => {
        const [before, after] = [derivativeOn(s, t - 0.005), derivativeOn(s, t + 0.005)];
        expect(secondDerivativeOn(s, t).dx).toBeCloseTo((after.dx - before.dx) / 0.01, 8);
        expect(secondDerivativeOn(s, t).dy).toBeCloseTo((after.dy - before.dy) / 0.01, 8);
      }),
    );
  });

  it('are exactly the end points at the ends', () => {
    fc.assert(
      fc.property(anyCubic, (s) => {
        expect(pointOn(s, 0)).toEqual(s.start);
        expect(pointOn(s, 1)).toEqual(s.end);
      }),
    );
  });

  it('always have a direction unless the segment is one point', () => {
    fc.assert(
      fc.property(anyCubic, anyParameter, (s, t) => {
        const flat = [s.startHandle, s.endHandle, s.end].every((p) => p.x === s.start.x && p.y === s.start.y);
        expect(magnitude(tangentOn(s, t))).toBeCloseTo(flat ? 0 : 1, 12);
      }),
    );
  });
});

describe('the direction at a handle of no length', () => {
  const [a, b, c] = [point(0, 0), point(10, 20), point(50, 0)];

  it('points to the next control point at the start, and from the one before at the end', () => {
    const s = cubic(a, a, b, c);
    expect(tangentOn(s, 0).dx).toBeCloseTo(1 / Math.sqrt(5), 12);
    expect(tangentOn(s, 0).dy).toBeCloseTo(2 / Math.sqrt(5), 12);
    const e = cubic(c, b, a, a);
    expect(tangentOn(e, 1).dx).toBeCloseTo(-1 / Math.sqrt(5), 12);
    expect(tangentOn(e, 1).dy).toBeCloseTo(-2 / Math.sqrt(5), 12);
  });

  it('is the chord when both handles have none', () => {
    const s = cubic(a, a, c, c);
    expect(tangentOn(s, 0)).toEqual({ dx: 1, dy: 0 });
    expect(tangentOn(s, 1).dx).toBe(1);
  });

  it('is the chord when both handles lie on one end', () => {
    expect(tangentOn(cubic(a, a, a, c), 0)).toEqual({ dx: 1, dy: 0 });
    expect(tangentOn(cubic(a, c, c, c), 1)).toEqual({ dx: 1, dy: 0 });
  });

  it('is that of setting off again at a cusp', () => {
    const cusp = cubic(point(0, 0), point(100, 100), point(0, 100), point(100, 0));
    expect(magnitude(derivativeOn(cusp, 0.5))).toBeLessThan(1e-12);
    expect(tangentOn(cusp, 0.5)).toEqual({ dx: 0, dy: -1 });
  });

  it('is none for one point', () => {
    expect(tangentOn(line(a, a), 0)).toEqual({ dx: 0, dy: 0 });
    expect(tangentOn(cubic(a, a, a, a), 0.3)).toEqual({ dx: 0, dy: 0 });
  });
});

describe('curvature', () => {
  it('is positive where the path turns clockwise on paper', () => {
    const k = (4 / 3) * Math.tan(Math.PI / 24) * 100;
    const [cos, sin] = [100 * Math.cos(Math.PI / 6), 100 * Math.sin(Math.PI / 6)];
    const clockwise = cubic(
      point(100, 0),
      point(100, k),
      point(cos + k / 2, sin - (k * Math.sqrt(3)) / 2),
      point(cos, sin),
    );
    expect(curvatureOn(clockwise, 0.4)).toBeCloseTo(0.01, 6);
  });

  it('is 0 on a line and where a cubic stands still', () => {
    expect(curvatureOn(line(point(0, 0), point(5, 9)), 0.5)).toBe(0);
    expect(curvatureOn(cubic(point(0, 0), point(0, 0), point(9, 9), point(30, 0)), 0)).toBe(0);
  });
});
