import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pointOn } from '../../src/geometry/evaluate.ts';
import { nearestPoint } from '../../src/geometry/nearest-point.ts';
import { distance, point } from '../../src/geometry/point.ts';
import { anyCubic, anyPoint } from '../support/arbitrary-curves.ts';
import { circle, curve, polyline } from '../support/shapes.ts';
import { VARIANTS } from '../support/variants.ts';

describe('the nearest point', () => {
  it('is nearer than any of a thousand samples, and on the curve', () => {
    fc.assert(
      fc.property(anyCubic, anyPoint, (s, p) => {
        const near = nearestPoint({ segments: [s] }, p);
        expect(distance(pointOn(s, near.location.t), p)).toBeCloseTo(near.distance, 9);
        for (let i = 0; i <= 1000; i += 1) {
          expect(near.distance).toBeLessThanOrEqual(distance(pointOn(s, i / 1000), p) + 1e-9);
        }
      }),
    );
  });

  it('lies at the true distance off a circle, inside and outside', () => {
    for (const radius of [1, 40, 99, 101, 300]) {
      for (const angle of [0, 0.3, 1.5, 2.9, 4]) {
        const near = nearestPoint(circle(100), point(radius * Math.cos(angle), radius * Math.sin(angle)));
        expect(Math.abs(near.distance - Math.abs(100 - radius))).toBeLessThan(0.0273);
      }
    }
  });

  it('is found from the centre, where all is equally near', () => {
    expect(nearestPoint(circle(100), point(0, 0)).distance).toBeCloseTo(100, 9);
  });

  it('is an end from beyond it', () => {
    const near = nearestPoint(polyline([0, 0], [10, 0], [10, 10]), point(12, 25));
    expect(near).toEqual({
      location: { segment: 1, t: 1 },
      point: { x: 10, y: 10 },
      distance: expect.closeTo(Math.hypot(2, 15), 12) as number,
    });
  });

  it.each(VARIANTS)('follows a shape $name', (variant) => {
    const path = {
      segments: [...curve(0, 0, 40, -30, 60, 50, 100, 0).segments, ...polyline([100, 0], [90, 60]).segments],
    };
    for (const p of [point(30, 40), point(120, 30), point(-5, -5)]) {
      const near = nearestPoint(path, p);
      const moved = nearestPoint(variant.path(path), variant.point(p));
      expect(moved.distance / variant.scale).toBeCloseTo(near.distance, 9);
      expect(distance(moved.point, variant.point(near.point)) / variant.scale).toBeLessThan(1e-6);
    }
  });

  it('on a segment of no length is that point', () => {
    expect(nearestPoint(polyline([3, 4], [3, 4]), point(0, 0)).distance).toBe(5);
  });
});
