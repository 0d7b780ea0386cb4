import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boxesMeet, joinBoxes, pathBox } from '../../src/geometry/box.ts';
import { pointOn } from '../../src/geometry/evaluate.ts';
import { anyCubic, anyPoint } from '../support/arbitrary-curves.ts';
import { circle, curve, quadratic } from '../support/shapes.ts';

describe('the box of a path', () => {
  it('holds the curve and touches it on all sides', () => {
    fc.assert(
      fc.property(anyCubic, (s) => {
        const box = pathBox({ segments: [s] });
        const points = Array.from({ length: 401 }, (_, i) => pointOn(s, i / 400));
        const [x, y] = [points.map((p) => p.x), points.map((p) => p.y)];
        for (const [edge, reached] of [
          [-box.minX, -Math.min(...x)],
          [-box.minY, -Math.min(...y)],
          [box.maxX, Math.max(...x)],
          [box.maxY, Math.max(...y)],
        ] as const) {
          expect(edge - reached).toBeGreaterThan(-1e-9);
          expect(edge - reached).toBeLessThan(0.02);
        }
      }),
    );
  });

  it('is right for a quadratic drawn as a cubic, whose leading coefficient is only rounding', () => {
    fc.assert(
      fc.property(anyPoint, anyPoint, anyPoint, (a, b, c) => {
        const box = pathBox(quadratic(a, b, c));
        const t = (a.y - b.y) / (a.y - 2 * b.y + c.y);
        const turns = t > 0 && t < 1;
        const y = turns ? a.y * (1 - t) ** 2 + 2 * b.y * t * (1 - t) + c.y * t * t : a.y;
        expect(box.maxY).toBeCloseTo(Math.max(a.y, c.y, y), 9);
        expect(box.minY).toBeCloseTo(Math.min(a.y, c.y, y), 9);
      }),
    );
  });

  it('is that of the curve, not of its handles', () => {
    expect(pathBox(curve(0, 0, 0, 40, 100, 40, 100, 0))).toEqual({ minX: 0, minY: 0, maxX: 100, maxY: 30 });
    expect(pathBox(circle(50)).maxX).toBeCloseTo(50, 12);
  });
});

describe('boxes', () => {
  it('join, and meet where they touch', () => {
    const [a, b] = [pathBox(curve(0, 0, 0, 0, 5, 5, 5, 5)), pathBox(curve(5, 5, 5, 5, 9, 9, 9, 9))];
    expect(joinBoxes([a, b])).toEqual({ minX: 0, minY: 0, maxX: 9, maxY: 9 });
    expect(boxesMeet(a, b)).toBe(true);
    expect(boxesMeet(a, { ...b, minX: 5.1 })).toBe(false);
    expect(boxesMeet(a, { ...b, minX: 5.1 }, 0.2)).toBe(true);
    expect(joinBoxes([]).minX).toBeGreaterThan(joinBoxes([]).maxX);
  });
});
