import { describe, expect, it } from 'vitest';
import { compose, rotation, type Matrix } from '../../../src/geometry/matrix.ts';
import { distance } from '../../../src/geometry/point.ts';
import { transformPoint } from '../../../src/geometry/transform-path.ts';
import { leftNormal, scaled, unit, vectorTo, type Vector } from '../../../src/geometry/vector.ts';
import { fitSide } from '../../../src/scan/scale/fit-side.ts';
import { scaleFromSides, type FourSides, type MeasuredSide } from '../../../src/scan/scale/scale-from-sides.ts';
import { chance, normal } from './draw-square.ts';
import { stretchOf } from './stretch-of.ts';

const EXACT = { placeVariance: 0, directionVariance: 0 };

/** The sides of a square of 50 mm under an affine map, from any corner on. */
const sidesUnder = (fromMm: Matrix, first = 0): FourSides => {
  const corners = [
    { x: 0, y: 0 },
    { x: 50, y: 0 },
    { x: 50, y: 50 },
    { x: 0, y: 50 },
  ].map((corner) => transformPoint(corner, fromMm));
  const sides = [0, 1, 2, 3].map((i): MeasuredSide => {
    const [from, to] = [corners[(i + first) % 4]!, corners[(i + first + 1) % 4]!];
    return { point: from, direction: unit(vectorTo(from, to)), ...EXACT };
  });
  return sides as unknown as FourSides;
};

/** Paper turned clockwise, then scanned with rows and columns of their own scale, the lower the farther to the right. */
const scanner = (turn: number, x: number, y: number, shear: number): Matrix =>
  compose({ a: x / 25.4, b: 0, c: (shear * x) / 25.4, d: y / 25.4, e: 211, f: 97 }, rotation(turn));

describe('the scale by the four sides of a square', () => {
  it.each([0, 0.02, -0.3, 0.78])('is exact for a square turned by %f', (turned) => {
    const fromMm = scanner(turned, 304, 297, 0.006);
    for (const first of [0, 1, 2, 3]) {
      const scale = scaleFromSides(sidesUnder(fromMm, first), 50)!;
      const { a, b, c, d } = compose(scale.toMm, fromMm);
      [a - 1, b, c, d - 1].forEach((off) => expect(off).toBeCloseTo(0, 12));
      expect(scale.turn).toBeCloseTo(turned, 12);
      expect(scale.dpi.x).toBeCloseTo(304, 9);
      // Columns that slant are as much longer as a hypotenuse.
      expect(scale.dpi.y).toBeCloseTo(297 / Math.hypot(1, (0.006 * 304) / 304), 2);
      expect(Math.abs(scale.shear)).toBeCloseTo(Math.atan(0.006 * (297 / 297)), 3);
      expect(scale.misfit).toBeCloseTo(0, 10);
      const third = transformPoint({ x: 50, y: 50 }, fromMm);
      expect(Math.min(...scale.corners!.map((corner) => distance(corner, third)))).toBeCloseTo(0, 9);
      expect(transformPoint({ x: 0, y: 0 }, scale.toMm)).toEqual({ x: 0, y: 0 });
    }
  });

  it('takes the quarter turn nearest to upright', () => {
    for (const quarter of [1, 2, 3]) {
      const scale = scaleFromSides(sidesUnder(scanner(0.1 + (quarter * Math.PI) / 2, 300, 300, 0)), 50)!;
      expect(scale.turn).toBeCloseTo(0.1, 12);
    }
  });

  it('says by how much corners do not fit: a quarter of what one corner is out', () => {
    const square = sidesUnder(scanner(0, 254, 254, 0));
    // The lower right corner lies 0.4 mm too far to the right: its right side slants, the others stay.
    const right = { ...square[1], direction: unit({ dx: 4, dy: 500 }) };
    const scale = scaleFromSides([square[0], right, square[2], square[3]], 50)!;
    expect(scale.misfit).toBeCloseTo(0.1, 3);
    expect(scale.doubt).toBeGreaterThan((100 * 0.1) / 50 - 0.001);
    // The mean of the two lengths that lie along the rows: 50 and 50.4 mm.
    expect(scale.dpi.x).toBeCloseTo((254 * 50.2) / 50, 6);
  });

  it('knows how wrong it may be, where readings side by side err alike', () => {
    const truth = scanner(0.03, 301, 298, 0.004);
    const square = sidesUnder(truth);
    let beyond = 0;
    let sum = 0;
    const runs = 60;
    for (let seed = 1; seed <= runs; seed += 1) {
      const random = chance(seed);
      const sides = square.map((side, i) => noisySide(side, square[(i + 1) % 4]!.point, random));
      const scale = scaleFromSides(sides as unknown as FourSides, 50)!;
      const ratio = (100 * stretchOf(compose(scale.toMm, truth))) / scale.doubt!;
      if (ratio > 3) beyond += 1;
      sum += ratio ** 2;
    }
    expect(beyond).toBeLessThanOrEqual(1);
    expect(Math.sqrt(sum / runs)).toBeGreaterThan(0.5);
    expect(Math.sqrt(sum / runs)).toBeLessThan(1.2);
  });

  it('is nothing for sides that enclose nothing', () => {
    const [top, right] = sidesUnder(scanner(0, 300, 300, 0));
    expect(scaleFromSides([top, top, top, top], 50)).toBeUndefined();
    expect(scaleFromSides([top, right, top, right], 50)).toBeUndefined();
  });
});

/** A side as if read: each error is the mean of five of its own, so that neighbours share four fifths of it. */
const noisySide = (
  { point, direction }: MeasuredSide,
  end: { x: number; y: number },
  random: () => number,
): MeasuredSide => {
  const length = Math.hypot(end.x - point.x, end.y - point.y) * 0.92;
  const count = Math.floor(length);
  const along = Float64Array.from({ length: count }, (_, k) => k - (count - 1) / 2);
  const own = Float64Array.from({ length: count + 4 }, () => 0.1 * normal(random));
  const offset = along.map((_, k) => (own[k]! + own[k + 1]! + own[k + 2]! + own[k + 3]! + own[k + 4]!) / 5);
  const fit = fitSide({ along, offset }, 2, 0.04)!;
  const normalOf: Vector = leftNormal(direction);
  const shift = scaled(normalOf, fit.middle);
  return {
    point: { x: (point.x + end.x) / 2 + shift.dx, y: (point.y + end.y) / 2 + shift.dy },
    direction: { dx: direction.dx + normalOf.dx * fit.slope, dy: direction.dy + normalOf.dy * fit.slope },
    placeVariance: fit.middleVariance,
    directionVariance: fit.slopeVariance,
  };
};
