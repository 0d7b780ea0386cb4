import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { extremaOf } from '../../src/geometry/box.ts';
import { pointOn } from '../../src/geometry/evaluate.ts';
import { flattenPath } from '../../src/geometry/flatten.ts';
import { crossHorizontal, intersectPaths, selfCrossings } from '../../src/geometry/intersect.ts';
import type { Path } from '../../src/geometry/path.ts';
import { distance, point, type Point } from '../../src/geometry/point.ts';
import { cubic } from '../../src/geometry/segment.ts';
import { subSegment } from '../../src/geometry/split.ts';
import { translatePath } from '../../src/geometry/transform-path.ts';
import { anyCubic, anyPoint } from '../support/arbitrary-curves.ts';
import { circle, curve, ellipse, polygon, polyline } from '../support/shapes.ts';
import { VARIANTS } from '../support/variants.ts';

const side = (a: Point, b: Point, p: Point): number => (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);

/** Crossings of two fine polylines, by signs of areas alone. */
const countByChords = (a: readonly Point[], b: readonly Point[]): number => {
  let count = 0;
  for (let i = 1; i < a.length; i += 1) {
    for (let j = 1; j < b.length; j += 1) {
      const [p, q, r, s] = [a[i - 1]!, a[i]!, b[j - 1]!, b[j]!];
      if (Math.max(p.x, q.x) < Math.min(r.x, s.x) || Math.max(r.x, s.x) < Math.min(p.x, q.x)) continue;
      if (side(p, q, r) > 0 !== side(p, q, s) > 0 && side(r, s, p) > 0 !== side(r, s, q) > 0) count += 1;
    }
  }
  return count;
};

describe('crossings of two paths', () => {
  it('lie on both, on any two cubics', () => {
    fc.assert(
      fc.property(anyCubic, anyCubic, (a, b) => {
        for (const c of intersectPaths({ segments: [a] }, { segments: [b] })) {
          expect(distance(pointOn(a, c.a.t), c.point)).toBeLessThan(1e-7);
          expect(distance(pointOn(b, c.b.t), c.point)).toBeLessThan(1e-7);
        }
      }),
    );
  });

  it('are no fewer than their chords have, on any two cubics', () => {
    fc.assert(
      fc.property(anyPoint, anyPoint, anyPoint, anyPoint, anyCubic, (p, q, r, s, b) => {
        const a = { segments: [cubic(p, q, r, s)] };
        const found = intersectPaths(a, { segments: [b] }).length;
        const wanted = countByChords(flattenPath(a, 0.01), flattenPath({ segments: [b] }, 0.01));
        expect(found).toBeGreaterThanOrEqual(wanted);
        expect(found - wanted).toBeLessThanOrEqual(2);
      }),
      { numRuns: 60 },
    );
  });

  it('are the four of two crossed ellipses, where the equations say', () => {
    const [a, b] = [ellipse(100, 50, 16), ellipse(50, 100, 16)];
    const at = Math.sqrt(1 / (1 / 100 ** 2 + 1 / 50 ** 2));
    const found = intersectPaths(a, b);
    expect(found).toHaveLength(4);
    for (const { point: p } of found) {
      expect(Math.abs(p.x)).toBeCloseTo(at, 3);
      expect(Math.abs(p.y)).toBeCloseTo(at, 3);
    }
  });

  it('are nine of two cubics that wind about each other', () => {
    const a = curve(0, 95, 33, -200, 67, 300, 100, 5);
    const b = curve(5, 0, 300, 33, -200, 67, 95, 100);
    expect(intersectPaths(a, b)).toHaveLength(9);
  });

  it('are one where curves touch', () => {
    const top = curve(0, 0, 0, 40, 100, 40, 100, 0);
    const other = curve(0, 60, 0, 20, 100, 20, 100, 60);
    const touch = intersectPaths(top, other);
    expect(touch).toHaveLength(1);
    expect(distance(touch[0]!.point, point(50, 30))).toBeLessThan(1e-3);
    expect(intersectPaths(top, polyline([0, 30], [100, 30]))).toHaveLength(1);
  });

  it('are two just past touching, and none just short of it', () => {
    const top = curve(0, 0, 0, 40, 100, 40, 100, 0);
    expect(intersectPaths(top, curve(0, 59.999, 0, 19.999, 100, 19.999, 100, 59.999))).toHaveLength(2);
    expect(intersectPaths(top, curve(0, 60.001, 0, 20.001, 100, 20.001, 100, 60.001))).toHaveLength(0);
    expect(intersectPaths(top, polyline([0, 29.999], [100, 29.999]))).toHaveLength(2);
    expect(intersectPaths(top, polyline([0, 30.001], [100, 30.001]))).toHaveLength(0);
  });

  it('are found at a very flat angle', () => {
    const flat = curve(0, 0, 33, 0.01, 66, -0.01, 100, 0.002);
    const found = intersectPaths(flat, curve(0, 0.001, 33, 0.001, 66, 0.001, 100, 0.001));
    expect(found.length).toBeGreaterThanOrEqual(2);
    for (const { a, b, point: p } of found) {
      expect(distance(pointOn(flat.segments[0]!, a.t), p)).toBeLessThan(1e-7);
      expect(b.t).toBeCloseTo(a.t, 1);
    }
  });

  it('count a joint once, and shared ends', () => {
    const a = polyline([0, 0], [10, 0], [20, 0]);
    expect(intersectPaths(a, polyline([10, -10], [10, 10]))).toHaveLength(1);
    expect(intersectPaths(a, polyline([20, 0], [30, 10]))).toHaveLength(1);
    expect(intersectPaths(curve(0, 0, 10, 20, 20, 20, 30, 0), curve(30, 0, 40, 30, 50, 10, 60, 0))).toHaveLength(1);
  });

  it('are the ends of a stretch run together, for lines and for curves', () => {
    const found = intersectPaths(polyline([0, 0], [10, 0]), polyline([4, 0], [20, 0]));
    expect(found.map((c) => c.point)).toEqual([point(4, 0), point(10, 0)]);
    const seam = curve(0, 0, -20, 70, 30, 130, 5, 200);
    expect(intersectPaths(seam, seam).map((c) => c.point)).toEqual([point(0, 0), point(5, 200)]);
  });

  it('are the ends of a part that was cut out of the same curve', () => {
    const seam = curve(0, 0, -20, 70, 30, 130, 5, 200);
    const part = { segments: [subSegment(seam.segments[0]!, 0.15, 0.5)] };
    const ends = [pointOn(part.segments[0]!, 0), pointOn(part.segments[0]!, 1)];
    const found = intersectPaths(seam, part);
    expect(found).toHaveLength(2);
    for (const [i, { point: p }] of found.entries()) expect(distance(p, ends[i]!)).toBeLessThan(1e-6);
  });

  it('are none of a curve and itself moved aside, however little', () => {
    const seam = curve(0, 0, -20, 70, 30, 130, 5, 200);
    for (const dx of [1e-7, 1e-5, 1e-3, 0.1])
      expect(intersectPaths(seam, translatePath(seam, { dx, dy: 0 }))).toEqual([]);
  });

  it.each(VARIANTS)('follow shapes $name', (variant) => {
    const a = {
      segments: [...curve(0, 0, 60, 90, 60, -90, 120, 0).segments, ...polyline([120, 0], [60, -60]).segments],
    };
    const b = curve(-10, 10, 80, -60, 30, 60, 130, -20);
    const wanted = intersectPaths(a, b);
    const found = intersectPaths(variant.path(a), variant.path(b));
    expect(wanted.length).toBeGreaterThan(2);
    expect(found).toHaveLength(wanted.length);
    for (const { point: p } of wanted) {
      const nearest = Math.min(...found.map((f) => distance(f.point, variant.point(p))));
      expect(nearest / variant.scale).toBeLessThan(1e-6);
    }
  });
});

describe('crossings of a level', () => {
  const seam: Path = {
    segments: [...polyline([0, 0], [5, 50]).segments, ...curve(5, 50, 10, 100, -20, 150, 0, 200).segments],
  };

  it('are one on an edge that runs down, at exactly that height', () => {
    for (let y = 0; y <= 200; y += 12.5) {
      const found = crossHorizontal(seam, y);
      expect(found).toHaveLength(1);
      expect(found[0]!.point.y).toBe(y);
      expect(pointOn(seam.segments[found[0]!.location.segment]!, found[0]!.location.t).y).toBeCloseTo(y, 9);
    }
  });

  it('agree with a fine polyline on any cubic', () => {
    fc.assert(
      fc.property(anyCubic, fc.double({ min: -150, max: 150, noNaN: true }), (s, y) => {
        const turns = [0, 1, ...extremaOf(s).y];
        fc.pre(turns.every((t) => Math.abs(pointOn(s, t).y - y) > 0.01));
        const found = crossHorizontal({ segments: [s] }, y);
        let changes = 0;
        for (let i = 1; i <= 2000; i += 1) {
          if (pointOn(s, (i - 1) / 2000).y > y !== pointOn(s, i / 2000).y > y) changes += 1;
        }
        expect(found).toHaveLength(changes);
        for (const f of found) expect(Math.abs(pointOn(s, f.location.t).y - y)).toBeLessThan(1e-3);
      }),
    );
  });

  it('find a level through a corner from a rounding error away, once', () => {
    expect(crossHorizontal(seam, -0.0004)).toHaveLength(1);
    expect(crossHorizontal(seam, 200.0004)).toHaveLength(1);
    expect(crossHorizontal(seam, 50)).toHaveLength(1);
    expect(crossHorizontal(seam, -0.001)).toHaveLength(0);
    expect(crossHorizontal(polyline([0, 0], [50, 30], [100, 0]), 30)).toHaveLength(1);
  });

  it('count a turning point once, two just inside it and none beyond', () => {
    const top = curve(0, 0, 0, 40, 100, 40, 100, 0);
    expect(crossHorizontal(top, 30)).toHaveLength(1);
    expect(crossHorizontal(top, 29.9999)).toHaveLength(2);
    expect(crossHorizontal(top, 30.001)).toHaveLength(0);
  });

  it('give the two ends of a horizontal piece', () => {
    const step = polyline([0, 0], [0, 10], [40, 10], [40, 20]);
    expect(crossHorizontal(step, 10).map((f) => f.point)).toEqual([point(0, 10), point(40, 10)]);
    const flat = curve(0, 10, 10, 10, 30, 10, 40, 10);
    expect(crossHorizontal(flat, 10).map((f) => f.point.x)).toEqual([0, 40]);
  });

  it('are two on a closed outline, also through its joint', () => {
    const outline = polygon([0, 0], [50, 0], [50, 100], [0, 100]);
    expect(crossHorizontal(outline, 60)).toHaveLength(2);
    expect(crossHorizontal(outline, 0).map((f) => f.point.x)).toEqual([0, 50]);
    expect(crossHorizontal(polygon([0, 50], [50, 0], [100, 50], [50, 100]), 50)).toHaveLength(2);
  });
});

describe('crossings of a path with itself', () => {
  it('are none on a sound outline, however its joints turn', () => {
    expect(selfCrossings(circle(100))).toEqual([]);
    expect(selfCrossings(polygon([0, 0], [50, 0], [50, 100], [0, 100]))).toEqual([]);
    const spike = polygon([0, 0], [100, 0], [100, 10], [40, 1], [0, 10]);
    expect(selfCrossings(spike)).toEqual([]);
    expect(selfCrossings(curve(0, 0, 50, 50, 100, 50, 150, 0))).toEqual([]);
    expect(selfCrossings(circle(500, 500))).toEqual([]);
  });

  it('are one in a figure of eight', () => {
    const found = selfCrossings(polygon([0, 0], [100, 100], [100, 0], [0, 100]));
    expect(found).toHaveLength(1);
    expect(found[0]!.point).toEqual({ x: 50, y: 50 });
  });

  it('are one in a cubic that loops, where the loop closes', () => {
    const found = selfCrossings(curve(0, 0, 150, 100, -50, 100, 100, 0));
    expect(found).toHaveLength(1);
    expect(found[0]!.point.x).toBeCloseTo(50, 9);
    expect(found[0]!.point.y).toBeCloseTo(300 / 7, 9);
  });

  it('are found between neighbours that meet again beyond their joint', () => {
    const path: Path = {
      segments: [...curve(0, 0, 60, -80, 120, 80, 100, 0).segments, ...curve(100, 0, 80, -80, 60, 60, 0, 20).segments],
    };
    expect(selfCrossings(path).length).toBeGreaterThan(0);
  });

  it('are found where an outline touches itself', () => {
    const found = selfCrossings(polygon([0, 0], [100, 0], [100, 100], [50, 0], [0, 100]));
    expect(found.map((f) => f.point)).toEqual([point(50, 0)]);
  });

  it.each(VARIANTS)('follow a shape $name', (variant) => {
    const path = {
      segments: [...curve(0, 0, 150, 100, -50, 100, 100, 0).segments, ...polyline([100, 0], [20, 60]).segments],
    };
    const wanted = selfCrossings(path);
    const found = selfCrossings(variant.path(path));
    expect(wanted).toHaveLength(3);
    expect(found).toHaveLength(3);
    for (const { point: p } of wanted) {
      expect(Math.min(...found.map((f) => distance(f.point, variant.point(p)))) / variant.scale).toBeLessThan(1e-6);
    }
  });
});
