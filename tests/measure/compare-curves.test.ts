import { describe, expect, it } from 'vitest';
import { point } from '../../src/geometry/point.ts';
import { reversePath } from '../../src/geometry/reverse-path.ts';
import { rotation } from '../../src/geometry/matrix.ts';
import { splitSegment } from '../../src/geometry/split.ts';
import { transformPath, translatePath } from '../../src/geometry/transform-path.ts';
import { vector } from '../../src/geometry/vector.ts';
import { curvesApart } from '../../src/measure/compare/curves-apart.ts';
import { circle, curve, polyline } from '../support/shapes.ts';

/** A quarter of a circle about the origin; by cubics it is round within 0.0003 of its radius. */
const arc = (radius: number) => ({ segments: circle(radius, 8).segments.slice(0, 2) });

describe('how far two lines lie apart', () => {
  it('is the difference of the radii for circles about one middle', () => {
    const { all, beside } = curvesApart(arc(200), arc(212.5));
    expect(all.distance).toBeCloseTo(12.5, 2);
    expect(beside!.distance).toBeCloseTo(12.5, 2);
  });

  it('is the height of a bow over its chord', () => {
    // A quarter circle of radius r stands r (1 - cos 45) over its chord.
    const { all } = curvesApart(polyline([100, 0], [0, 100]), arc(100));
    expect(all.distance).toBeCloseTo(100 * (1 - Math.SQRT1_2), 2);
    expect(all.after.x).toBeCloseTo(all.after.y, 0);
  });

  it('is square to straight lines, wherever they are turned to', () => {
    const line = polyline([0, 0], [0, 300]);
    for (const angle of [0, 0.3, 1, 2.5]) {
      const turned = transformPath(line, rotation(angle));
      const moved = transformPath(polyline([7, 0], [7, 300]), rotation(angle));
      expect(curvesApart(turned, moved).all.distance).toBeCloseTo(7, 9);
    }
  });

  it('is of a line that was turned about its end the sine there, found where it is', () => {
    const turned = transformPath(polyline([0, 0], [0, 200]), rotation(0.05));
    const { beside } = curvesApart(polyline([0, 0], [0, 200]), turned);
    expect(beside!.distance).toBeCloseTo(200 * Math.sin(0.05), 1);
    expect(beside!.before.y).toBeGreaterThan(190);
  });

  it('is nothing beside a line that only goes on or stops short, and all of it in all', () => {
    const short = polyline([0, 0], [0, 200]);
    for (const other of [polyline([0, 0], [0, 212]), polyline([0, -12], [0, 200]), polyline([0, -5], [0, 212])]) {
      const { all, beside } = curvesApart(short, other);
      expect(beside!.distance).toBeLessThan(1e-9);
      expect(all.distance).toBeCloseTo(12, 9);
    }
    const s = curve(0, 0, 40, 60, -40, 120, 0, 200).segments[0]!;
    const [first] = splitSegment(s, 0.7);
    expect(curvesApart({ segments: [s] }, { segments: [first] }).beside!.distance).toBeLessThan(1e-6);
    expect(curvesApart({ segments: [s] }, { segments: [first] }).all.distance).toBeGreaterThan(50);
  });

  it('is nothing for one curve cut in two, or run the other way', () => {
    const path = curve(0, 0, 40, 60, -40, 120, 0, 200);
    const cut = { segments: splitSegment(path.segments[0]!, 0.37) };
    expect(curvesApart(path, cut).all.distance).toBeLessThan(1e-6);
    expect(curvesApart(path, reversePath(path)).all.distance).toBeLessThan(1e-9);
  });

  it('sees a bump wherever it is, to 0.005 mm', () => {
    for (let at = 10; at < 190; at += 17) {
      const bump = polyline([0, 0], [0, at - 3], [2.5, at], [0, at + 3], [0, 200]);
      expect(Math.abs(curvesApart(polyline([0, 0], [0, 200]), bump).all.distance - 2.5)).toBeLessThan(0.005);
    }
  });

  it('is the same the other way round, with the same two points', () => {
    const [a, b] = [curve(0, 0, 40, 60, -40, 120, 0, 200), curve(3, 2, 30, 60, -10, 120, 6, 190)];
    const [there, back] = [curvesApart(a, b), curvesApart(b, a)];
    expect(back.all).toEqual({ distance: there.all.distance, before: there.all.after, after: there.all.before });
    const [up, down] = [curvesApart(a, translatePath(a, vector(5, 0))), curvesApart(translatePath(a, vector(5, 0)), a)];
    expect(down.all.before).toEqual(up.all.after);
  });

  it('is, where neither runs beside the other, between their ends', () => {
    const { all, beside } = curvesApart(polyline([0, 0], [0, 10]), polyline([0, 30], [0, 50]));
    expect(beside).toBeUndefined();
    expect(all.distance).toBeCloseTo(40, 9);
    expect(all.after).toEqual(point(0, 50));
  });
});
