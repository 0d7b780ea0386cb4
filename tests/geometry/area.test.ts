import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isInside, signedArea } from '../../src/geometry/area.ts';
import { flattenPath } from '../../src/geometry/flatten.ts';
import { point } from '../../src/geometry/point.ts';
import { line } from '../../src/geometry/segment.ts';
import { splitSegment } from '../../src/geometry/split.ts';
import { anyCubic, anyPoint } from '../support/arbitrary-curves.ts';
import { circle, polygon, polyline } from '../support/shapes.ts';
import { VARIANTS } from '../support/variants.ts';

const shape = polygon([0, 0], [60, -10], [80, 90], [40, 50], [-10, 80]);

describe('the area inside a path', () => {
  it('is positive clockwise on paper', () => {
    expect(signedArea(polygon([0, 0], [20, 0], [20, 30], [0, 30]))).toBe(600);
    expect(signedArea(polygon([0, 0], [0, 30], [20, 30], [20, 0]))).toBe(-600);
  });

  it('of any cubic to its chord is that of its fine polyline', () => {
    fc.assert(
      fc.property(anyCubic, (s) => {
        const points = flattenPath({ segments: [s] }, 1e-4);
        const chords = points.map((p, i) => line(p, points[(i + 1) % points.length]!));
        const closed = { segments: [s, line(s.end, s.start)] };
        expect(Math.abs(signedArea(closed) - signedArea({ segments: chords }))).toBeLessThan(0.2);
      }),
    );
  });

  it('does not change when a cubic is split', () => {
    fc.assert(
      fc.property(anyCubic, (s) => {
        const whole = { segments: [s, line(s.end, s.start)] };
        const parts = { segments: [...splitSegment(s, 0.3), line(s.end, s.start)] };
        expect(signedArea(parts)).toBeCloseTo(signedArea(whole), 6);
      }),
    );
  });

  it.each(VARIANTS)('follows a shape $name', (variant) => {
    const sign = variant.mirrored === variant.reversed ? 1 : -1;
    const wanted = signedArea(shape) * variant.scale ** 2 * sign;
    expect(signedArea(variant.path(shape)) / wanted).toBeCloseTo(1, 9);
  });
});

describe('inside and outside', () => {
  it('are told by the distance from the centre of a circle', () => {
    fc.assert(
      fc.property(anyPoint, (p) => {
        const away = Math.hypot(p.x, p.y);
        fc.pre(Math.abs(away - 100) > 0.05);
        expect(isInside(circle(100), p)).toBe(away < 100);
      }),
    );
  });

  it('are told level with corners and horizontal edges', () => {
    expect(isInside(polygon([0, 0], [20, 0], [20, 30], [0, 30]), point(-5, 0))).toBe(false);
    expect(isInside(polygon([0, 0], [20, 0], [20, 30], [0, 30]), point(-5, 30))).toBe(false);
    const diamond = polygon([0, 10], [10, 0], [20, 10], [10, 20]);
    expect(isInside(diamond, point(10, 10))).toBe(true);
    expect(isInside(diamond, point(-3, 10))).toBe(false);
    expect(isInside(diamond, point(5, 0))).toBe(false);
    expect(isInside(circle(100), point(0, 0))).toBe(true);
  });

  it.each(VARIANTS)('follow a shape $name', (variant) => {
    const moved = variant.path(shape);
    for (const p of [point(30, 20), point(0, 60), point(70, 70)]) expect(isInside(moved, variant.point(p))).toBe(true);
    for (const p of [point(40, 60), point(70, -20), point(-9, 10)])
      expect(isInside(moved, variant.point(p))).toBe(false);
  });

  it('of a line that encloses nothing is outside', () => {
    expect(isInside(polyline([0, 0], [10, 10], [0, 0]), point(5, 4))).toBe(false);
  });
});
