import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { segmentLength } from '../../src/geometry/arc-length.ts';
import { pointOn } from '../../src/geometry/evaluate.ts';
import { meetAtCorner } from '../../src/geometry/extend.ts';
import { nearestPoint } from '../../src/geometry/nearest-point.ts';
import { pathEnd, pathStart, type Path } from '../../src/geometry/path.ts';
import { distance, point, samePoint } from '../../src/geometry/point.ts';
import { reversePath } from '../../src/geometry/reverse-path.ts';
import { CRUMB } from '../../src/geometry/tolerance.ts';
import { translatePath } from '../../src/geometry/transform-path.ts';
import { curve, polyline } from '../support/shapes.ts';
import { VARIANTS } from '../support/variants.ts';

const top = polyline([0, 0], [100, 0]);
const arched = curve(0, 0, 30, -14, 65, -14, 100, 6);
const seam = curve(100, 6, 96, 70, 70, 130, 78, 200);

const cornerOf = (a: Path, b: Path) => {
  const met = meetAtCorner(a, b);
  if (met === undefined) throw new Error('they do not meet');
  expect(samePoint(pathEnd(met.a), pathStart(met.b))).toBe(true);
  expect(pathStart(met.a)).toEqual(pathStart(a));
  expect(pathEnd(met.b)).toEqual(pathEnd(b));
  return { ...met, corner: pathEnd(met.a) };
};

describe('two edges meet at a corner', () => {
  it('as they are, where they do', () => {
    expect(meetAtCorner(arched, seam)).toEqual({ a: arched, b: seam });
  });

  it('both cut where they cross', () => {
    const { a, b, corner } = cornerOf(top, polyline([90, -10], [85, 200]));
    expect(corner.x).toBeCloseTo(90 - 5 / 21, 9);
    expect(corner.y).toBeCloseTo(0, 9);
    expect([a.segments.length, b.segments.length]).toEqual([1, 1]);
  });

  it('the first extended to the second', () => {
    const { a, corner } = cornerOf(top, polyline([110, -10], [105, 200]));
    expect(corner.x).toBeCloseTo(110 - 5 / 21, 9);
    expect(a.segments).toHaveLength(1);
  });

  it('the second extended to the first', () => {
    const { b, corner } = cornerOf(top, polyline([90, 10], [80, 200]));
    expect(corner.x).toBeCloseTo(90 + 10 / 19, 9);
    expect(corner.y).toBeCloseTo(0, 9);
    expect(b.segments).toHaveLength(1);
  });

  it('both extended', () => {
    const { a, b, corner } = cornerOf(top, polyline([110, 10], [110, 200]));
    expect(corner).toEqual(point(110, 0));
    expect([a.segments.length, b.segments.length]).toEqual([1, 1]);
  });

  it('on along the end tangent of a curve, by one straight piece', () => {
    const { a, corner } = cornerOf(arched, translatePath(seam, { dx: 9, dy: -6 }));
    expect(a.segments).toHaveLength(2);
    expect(a.segments[0]).toEqual(arched.segments[0]);
    expect((corner.y - 6) / (corner.x - 100)).toBeCloseTo(20 / 35, 9);
  });

  it('cut back into a curve without changing what is left', () => {
    const moved = translatePath(seam, { dx: -9, dy: -20 });
    const { a, b, corner } = cornerOf(arched, moved);
    for (const part of [a, b]) expect(part.segments).toHaveLength(1);
    for (let t = 0; t <= 1; t += 0.1) {
      expect(nearestPoint(arched, pointOn(a.segments[0]!, t)).distance).toBeLessThan(1e-6);
      expect(nearestPoint(moved, pointOn(b.segments[0]!, t)).distance).toBeLessThan(1e-6);
    }
    expect(corner.x).toBeLessThan(95);
  });

  it('within a rounding error, without a new node', () => {
    const { a, b } = cornerOf(arched, translatePath(seam, { dx: 0.0003, dy: 0 }));
    expect(a).toEqual(arched);
    expect(b.segments).toHaveLength(1);
  });

  it('at the crossing that cuts off least, of several', () => {
    const waved = curve(60, 20, 130, -60, 60, 60, 110, -40);
    const { corner } = cornerOf(reversePath(polyline([120, 0], [0, 0])), translatePath(waved, { dx: 0, dy: -2 }));
    expect(corner.y).toBeCloseTo(0, 9);
  });

  it('not at all when they run side by side, or one is a point', () => {
    expect(meetAtCorner(top, polyline([100, 10], [200, 10]))).toBeUndefined();
    expect(meetAtCorner(top, polyline([100, 10], [0, 10.5]))).toBeUndefined();
    expect(meetAtCorner(polyline([0, 0], [0, 0]), polyline([10, 10], [10, 10]))).toBeUndefined();
  });

  it('not at a far corner that they share already', () => {
    const { corner } = cornerOf(top, polyline([100, 10], [110, 50], [0, 0]));
    expect(corner.x).toBeCloseTo(97.5, 9);
    expect(corner.y).toBeCloseTo(0, 9);
  });

  it.each(VARIANTS.filter(({ scale }) => scale >= 1))('with shapes $name', (variant) => {
    for (const by of [
      { dx: 7, dy: 0 },
      { dx: -7, dy: 0 },
      { dx: 4, dy: -9 },
      { dx: -3, dy: 8 },
    ]) {
      const b = translatePath(seam, by);
      const { corner } = cornerOf(arched, b);
      const [first, second] = [variant.path(arched), variant.path(b)];
      const moved = variant.reversed ? cornerOf(second, first) : cornerOf(first, second);
      expect(distance(moved.corner, variant.point(corner)) / variant.scale).toBeLessThan(1e-5);
    }
  });
});

describe('a chain of moves', () => {
  const nudge = fc.integer({ min: -800, max: 800 }).map((n) => n / 100);

  it('gathers no nodes and no crumbs', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(nudge, nudge), { minLength: 5, maxLength: 40 }), (moves) => {
        let a = arched;
        for (const [dx, dy] of moves) a = cornerOf(a, translatePath(seam, { dx, dy: dy - 10 })).a;
        expect(a.segments.length).toBeLessThanOrEqual(2);
        for (const s of a.segments) expect(segmentLength(s)).toBeGreaterThan(CRUMB / 2);
      }),
      { numRuns: 40 },
    );
  });

  it('out and back 25 times leaves the edge where it was', () => {
    let a = arched;
    for (let i = 0; i < 25; i += 1) {
      for (const dx of [6.35, 0]) a = cornerOf(a, translatePath(seam, { dx, dy: -0.5 })).a;
    }
    const once = cornerOf(arched, translatePath(seam, { dx: 0, dy: -0.5 })).a;
    expect(a.segments).toHaveLength(1);
    expect(distance(pathEnd(a), pathEnd(once))).toBeLessThan(1e-6);
  });

  it('keeps the direction of an extension whose stub was rounded', () => {
    const stub: Path = { segments: [...arched.segments, ...polyline([100, 6], [100.006, 6.004]).segments] };
    const { a, corner } = cornerOf(stub, translatePath(seam, { dx: 12, dy: -6 }));
    expect(a.segments).toHaveLength(2);
    expect((corner.y - 6) / (corner.x - 100)).toBeCloseTo(20 / 35, 9);
  });
});
