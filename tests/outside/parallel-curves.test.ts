/**
 * Parallel curves with known answers.
 *
 * - The parallel of a curve P at distance d is P + d n; a circle of radius R becomes one of R + d (Yates, "A Handbook on Curves and
 *   Their Properties", 1952, pp. 155-159, known from a citation).
 * - A closed convex curve d outward: length L + 2 pi d, area A + L d + pi d^2, curvature k/(1 + d k) (do Carmo, "Differential
 *   Geometry of Curves and Surfaces", 1-7 ex. 6; the number from memory). Two transcripts print k/(1 + d): that is wrong unless k = 1.
 * - Steiner's formulas with mitres in place of arcs: each corner that turns by q adds (2 tan(q/2) - q) d to the length and
 *   (tan(q/2) - q/2) d^2 to the area (geometry).
 * - A mitre is 1/sin(angle/2) widths long (geometry).
 * - The parabola y = x^2/40: lengths by its arc length formula, s = x/2 sqrt(1 + 4a^2 x^2) + asinh(2ax)/(4a) (PlanetMath, "arc
 *   length of parabola"), and L' = L + d (turn). Offset by 25 on its inside, more than its least radius of 20, it crosses itself at
 *   (0, a d^2 + 1/(4a)) = (0, 25.625) (own derivation): points at x = -15 and 15 are sent there.
 * - clipper2-ts and jsts on the same panels, flattened.
 */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { StaywrightError } from '../../src/errors.ts';
import { pathLength } from '../../src/geometry/arc-length.ts';
import { signedArea } from '../../src/geometry/area.ts';
import { curvatureOn, pointOn } from '../../src/geometry/evaluate.ts';
import { selfCrossings } from '../../src/geometry/intersect.ts';
import { offsetOutline } from '../../src/geometry/offset-outline.ts';
import { offsetPath } from '../../src/geometry/offset-path.ts';
import { pathEnd, pathStart, type Path } from '../../src/geometry/path.ts';
import { distance, point, type Point } from '../../src/geometry/point.ts';
import { anyPanel, bustPanel, notched, ordinaryPanel, run, spike } from '../geometry/offset-shapes.ts';
import { nearestOf, pointsOf } from '../geometry/offset-truth.ts';
import { circle, ellipse, quadratic } from '../support/shapes.ts';
import { clipperOffset, jstsOffset, stubbedPolygon } from './peer-offsets.ts';

const BOUND = 0.02;

const joined = (paths: readonly Path[]): Path => ({ segments: paths.flatMap((path) => path.segments) });
const evenly = (paths: readonly Path[], width: number) => paths.map((path) => ({ path, distance: width }));

/** What the length and area of a line may be out by when it stays within the bound. */
const within = (length: number) => ({ length: 2 * Math.PI * BOUND, area: length * BOUND });

const polygon = (points: readonly (readonly [number, number])[]): Path =>
  run(points[0]!, ...points.slice(1), points[0]!);

/** How far length and area of the parallel of a convex outline are from Steiner's, as parts of what the bound allows. */
const steinerMisses = (shape: Path, width: number): { readonly length: number; readonly area: number } => {
  let [length, area] = [pathLength(shape), signedArea(shape)];
  area += length * width + Math.PI * width * width;
  length += 2 * Math.PI * width;
  for (const [i, segment] of shape.segments.entries()) {
    const before = shape.segments.at(i - 1)!;
    const [a, b] = [pointOn(before, 1 - 1e-7), pointOn(segment, 1e-7)];
    const [ux, uy, vx, vy] = [
      segment.start.x - a.x,
      segment.start.y - a.y,
      b.x - segment.start.x,
      b.y - segment.start.y,
    ];
    const turn = Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);
    length += (2 * Math.tan(turn / 2) - turn) * width;
    area += (Math.tan(turn / 2) - turn / 2) * width * width;
  }
  const result = offsetPath(shape, width);
  return {
    length: Math.abs(pathLength(result) - length) / within(length).length,
    area: Math.abs(signedArea(result) - area) / within(length).area,
  };
};

/** The distance to the parabola by the cubic equation of its normals. */
const toParabola = (p: Point): number => {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i <= 4000; i += 1) {
    let x = -100 + i / 20;
    if (i % 40 === 0) {
      for (let step = 0; step < 30; step += 1) {
        const f = x - p.x + ((x * x) / 40 - p.y) * (x / 20);
        const slope = 1 + (x * x) / 800 + ((x * x) / 40 - p.y) / 20;
        x = Math.max(-100, Math.min(100, x - f / slope));
      }
    }
    least = Math.min(least, Math.hypot(x - p.x, (x * x) / 40 - p.y));
  }
  return least;
};

const linksOf = (ring: readonly Point[]) => ring.map((p, i) => [p, ring[(i + 1) % ring.length]!] as const);

const pairs = (points: readonly Point[]) => points.slice(1).map((p, i) => [points[i]!, p] as const);

const refusalOf = (make: () => unknown): string | undefined => {
  try {
    make();
    return undefined;
  } catch (error) {
    if (error instanceof StaywrightError) return error.message;
    throw error;
  }
};

describe('the parallel of a circle', () => {
  it('of radius 100 is one of 115, of length 722.566310 and area 41547.562844', () => {
    const result = offsetPath(circle(100, 16), 15);
    expect(pathLength(result)).toBeCloseTo(722.56631, 2);
    expect(signedArea(result)).toBeCloseTo(41547.562844, 0);
    for (const s of result.segments) {
      for (const t of [0, 0.1, 0.3, 0.5, 0.8]) {
        const { x, y } = pointOn(s, t);
        expect(Math.abs(Math.hypot(x, y) - 115)).toBeLessThan(0.001);
      }
    }
  });

  it('has the curvature k/(1 + dk) = 1/115, and not 1/(100 (1 + 15))', () => {
    const [s] = offsetPath(circle(100, 16), 15).segments;
    expect(curvatureOn(s!, 0.5)).toBeCloseTo(1 / 115, 5);
  });

  it('comes down to a point and to nothing', () => {
    expect(pathLength(offsetPath(circle(100, 16), -99))).toBeCloseTo(2 * Math.PI, 1);
    expect(() => offsetPath(circle(100), -101)).toThrow(StaywrightError);
  });
});

describe('the parallel of the ellipse with half axes 140 and 100', () => {
  it.each([
    [15, 853.475158, 56077.566178],
    [-15, 664.979599, 33300.744817],
    [-60, 759.227379 - 120 * Math.PI, 43982.29715 - 60 * 759.227379 + 3600 * Math.PI],
  ])('at %d mm has length %d and area %d', (width, length, area) => {
    const result = offsetPath(ellipse(140, 100, 16), width);
    expect(Math.abs(pathLength(result) - length)).toBeLessThan(within(length).length);
    expect(Math.abs(signedArea(result) - area)).toBeLessThan(within(length).area);
  });
});

describe('corners', () => {
  it('of a rectangle of 200 by 300 at 15 mm give 1120 round and 75900 within', () => {
    const result = offsetPath(
      polygon([
        [0, 0],
        [200, 0],
        [200, 300],
        [0, 300],
      ]),
      15,
    );
    expect(pathLength(result)).toBeCloseTo(1120, 9);
    expect(signedArea(result)).toBeCloseTo(75900, 9);
    // Round corners would give 1094.247780 and 75706.858347; each square mitre adds (1 - pi/4) d^2 = 48.285413.
    expect((signedArea(result) - 75706.858347) / 4).toBeCloseTo(48.285413, 5);
    expect(pathLength(result) - 4 * (2 - Math.PI / 2) * 15).toBeCloseTo(1094.24778, 5);
  });

  it.each([
    [90, Math.SQRT2],
    [60, 2],
    [30, 3.863703],
    [20, 5.75877],
  ])('of %d degrees have a mitre of %d widths', (degrees, widths) => {
    const half = (degrees * Math.PI) / 360;
    const [x, y] = [300 * Math.tan(half), 300];
    const tip = pathStart(
      offsetPath(
        polygon([
          [0, 0],
          [x, y],
          [-x, y],
        ]),
        15,
      ),
    );
    expect(distance(tip, point(0, 0)) / 15).toBeCloseTo(widths, 5);
  });

  it("follow Steiner's formulas with mitres, on convex polygons and on a panel of curves and corners", () => {
    const misses = [];
    for (const sides of [3, 4, 5, 7, 12]) {
      const shape = polygon(
        Array.from({ length: sides }, (_, i) => {
          const angle = (2 * Math.PI * i) / sides;
          return [120 * Math.cos(angle), 90 * Math.sin(angle)] as const;
        }),
      );
      for (const width of [1, 7, 40]) misses.push(steinerMisses(shape, width));
    }
    const [half, deep] = [80, 260];
    const bow = run(
      [-half, 0],
      [-30, -25, 30, -25, half, 0],
      [95, 80, 95, 180, half, deep],
      [-half, deep],
      [-95, 180, -95, 80, -half, 0],
    );
    for (const width of [1, 15, 40]) misses.push(steinerMisses(bow, width));
    for (const { length, area } of misses) expect(Math.max(length, area)).toBeLessThan(1);
  });
});

describe('the parabola y = x^2/40', () => {
  const half = quadratic(point(0, 0), point(50, 0), point(100, 250));
  const both = quadratic(point(-100, 250), point(0, -250), point(100, 250));

  it('from 0 to 100 is 278.075359 long, its parallels 15 beside it 298.676371 and 257.474348', () => {
    expect(pathLength(half)).toBeCloseTo(278.075359, 4);
    // It runs to the right and curls downwards on paper: its left, the outside of the bend, is above.
    expect(Math.abs(pathLength(offsetPath(half, 15)) - 298.676371)).toBeLessThan(0.01);
    expect(Math.abs(pathLength(offsetPath(half, -15)) - 257.474348)).toBeLessThan(0.01);
  });

  it('has its ends at (114.708710, 247.058258) outside and (85.291290, 252.941742) inside', () => {
    const [outside, inside] = [pathEnd(offsetPath(half, 15)), pathEnd(offsetPath(half, -15))];
    expect([outside.x, outside.y]).toEqual([expect.closeTo(114.70871, 6), expect.closeTo(247.058258, 6)]);
    expect([inside.x, inside.y]).toEqual([expect.closeTo(85.29129, 6), expect.closeTo(252.941742, 6)]);
  });

  const halves = joined([quadratic(point(-100, 250), point(-50, 0), point(0, 0)), half]);

  it.each([
    ['one cubic', both],
    ['a cubic for each half', halves],
  ])('as %s loses the loop of its parallel 25 inside, cut at (0, 25.625)', (_, parabola) => {
    const result = offsetPath(parabola, -25);
    expect(selfCrossings(result)).toEqual([]);
    const joints = result.segments.map((s) => s.end);
    const cut = joints.find((p) => Math.abs(p.x) < 1)!;
    expect([cut.x, cut.y]).toEqual([expect.closeTo(0, 6), expect.closeTo(25.625, 6)]);
    // Nothing of the loop is left: its cusps would be at y = 24.811916, and it would pass (0, 25) from x = 0.
    for (const p of pointsOf(result)) expect(p.y).toBeGreaterThan(25.625 - 1e-6);
    for (const p of pointsOf(result)) expect(Math.abs(toParabola(p) - 25)).toBeLessThan(BOUND);
  });
});

describe('other libraries', () => {
  const FLATNESS = 0.0005;
  const peers = [
    ['clipper2-ts', clipperOffset],
    ['jsts', jstsOffset],
  ] as const;
  const panels = [
    ['the ordinary panel', ordinaryPanel()],
    ['a tight waist and bust', bustPanel()],
    ['a spike', spike()],
    ['a concave corner', notched()],
  ] as const;
  const cases = peers.flatMap(([peer, offset]) => panels.map(([name, panel]) => ({ peer, offset, name, panel })));

  it.each(cases)('$peer agrees on $name', ({ offset, panel }) => {
    const flat = stubbedPolygon(panel, FLATNESS);
    for (const width of [1, 5, 15, -1, -5, -15]) {
      const result = joined(offsetOutline(evenly(panel, width)));
      const rings = offset(flat, width);
      expect(rings).toHaveLength(1);
      const [toResult, toRing] = [nearestOf(pairs(pointsOf(result))), nearestOf(linksOf(rings[0]!))];
      for (const p of rings[0]!) expect(toResult(p, 50)).toBeLessThan(BOUND);
      for (const p of pointsOf(result)) expect(toRing(p, 50)).toBeLessThan(BOUND);
    }
  });

  it('find no single outline either where ours refuses for want of one', () => {
    fc.assert(
      fc.property(anyPanel(2), fc.constantFrom(5, 15, 25, 40, -5, -10, -15, -20), (panel, width) => {
        fc.pre(selfCrossings(joined(panel)).length === 0);
        const message = refusalOf(() => offsetOutline(evenly(panel, width)));
        const parts = clipperOffset(stubbedPolygon(panel, 0.005), width).filter((ring) => ring.length > 2).length;
        // One part may still lack a run, or have a corner of under 2 degrees that is cut off there.
        const mayBeOne = /of a run|too sharp/.test(message ?? '');
        expect(mayBeOne || (message === undefined) === (parts === 1)).toBe(true);
      }),
      { numRuns: 150 },
    );
  });
});
