/**
 * Areas that are known in closed form.
 *
 * - One cubic by Green's theorem, from the origin: (6 P0xP1 + 3 P0xP2 + P0xP3 + 3 P1xP2 + 3 P1xP3 + 6 P2xP3)/20, here integrated afresh
 *   by Simpson's rule with enough points to be exact for a polynomial of degree 5.
 * - Four cubics for a circle of radius 100 with handles 4/3 tan(pi/8): area 31424.723327, computed independently; a true circle
 *   has 31415.926536.
 * - An ellipse has pi a b.
 */
import { describe, expect, it } from 'vitest';
import { signedArea } from '../../src/geometry/area.ts';
import { derivativeOn, pointOn } from '../../src/geometry/evaluate.ts';
import { pathBox } from '../../src/geometry/box.ts';
import { point } from '../../src/geometry/point.ts';
import { line, type Segment } from '../../src/geometry/segment.ts';
import { circle, curve, ellipse } from '../support/shapes.ts';

const integrated = (s: Segment): number => {
  const steps = 2000;
  let sum = 0;
  for (let i = 0; i <= steps; i += 1) {
    const t = i / steps;
    const [p, d] = [pointOn(s, t), derivativeOn(s, t)];
    const weight = i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2;
    sum += weight * (p.x * d.dy - p.y * d.dx);
  }
  return sum / (6 * steps);
};

describe('the area', () => {
  it('of the cubic (0,0) (0,40) (100,40) (100,0) to its chord is 2400, and its top at 30', () => {
    const path = curve(0, 0, 0, 40, 100, 40, 100, 0);
    const closed = { segments: [...path.segments, line(point(100, 0), point(0, 0))] };
    expect(signedArea(closed)).toBeCloseTo(-2400, 9);
    expect(pathBox(path).maxY).toBe(30);
  });

  it('of a cubic is that of its integral', () => {
    const [s] = curve(7, -3, 40, 90, -60, 30, 110, 55).segments;
    const closed = { segments: [s!, line(s!.end, s!.start)] };
    expect(signedArea(closed)).toBeCloseTo(integrated(s!) + integrated(closed.segments[1]!), 6);
  });

  it('of four cubics for a circle of radius 100 is 31424.723327', () => {
    expect(signedArea(circle(100))).toBeCloseTo(31424.723327, 5);
  });

  it('of an ellipse by many cubics is pi a b', () => {
    expect(signedArea(ellipse(140, 100, 64))).toBeCloseTo(Math.PI * 140 * 100, 4);
  });
});
