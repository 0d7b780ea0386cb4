import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { derivativeOn, pointOn, tangentOn } from '../../src/geometry/evaluate.ts';
import { fitCubics, type Curve } from '../../src/geometry/fit-cubics.ts';
import { nearestPoint } from '../../src/geometry/nearest-point.ts';
import { samePoint } from '../../src/geometry/point.ts';
import { cubic, type Cubic, type Segment } from '../../src/geometry/segment.ts';
import { REFIT_TOLERANCE } from '../../src/geometry/tolerance.ts';
import { cross, turn, unit } from '../../src/geometry/vector.ts';

const arc = (radius: number): Curve => ({
  point: (t) => ({ x: radius * Math.cos(t), y: radius * Math.sin(t) }),
  derivative: (t) => ({ dx: -radius * Math.sin(t), dy: radius * Math.cos(t) }),
});

const wave: Curve = {
  point: (t) => ({ x: t, y: 20 * Math.sin(t / 30) }),
  derivative: (t) => ({ dx: 1, dy: (20 / 30) * Math.cos(t / 30) }),
};

const shifted = (s: Segment): Curve => ({
  point: (t) => {
    const p = pointOn(s, t);
    return { x: p.x + 6 * Math.sin((p.y / 200) * Math.PI) ** 2, y: p.y };
  },
  derivative: (t) => {
    const [p, d] = [pointOn(s, t), derivativeOn(s, t)];
    return { dx: d.dx + ((6 * Math.PI) / 200) * Math.sin((2 * p.y * Math.PI) / 200) * d.dy, dy: d.dy };
  },
});

const expectClose = (pieces: readonly Cubic[], curve: Curve, from: number, to: number, tolerance: number): void => {
  for (let i = 0; i <= 500; i += 1) {
    const p = curve.point(from + ((to - from) * i) / 500);
    expect(nearestPoint({ segments: pieces }, p).distance).toBeLessThanOrEqual(tolerance * 1.05);
  }
};

const expectSmooth = (pieces: readonly Cubic[], curve: Curve, from: number, to: number): void => {
  expect(pieces[0]!.start).toEqual(curve.point(from));
  expect(pieces.at(-1)!.end).toEqual(curve.point(to));
  expect(turn(tangentOn(pieces[0]!, 0), unit(curve.derivative(from)))).toBeCloseTo(0, 9);
  expect(turn(tangentOn(pieces.at(-1)!, 1), unit(curve.derivative(to)))).toBeCloseTo(0, 9);
  for (let i = 1; i < pieces.length; i += 1) {
    expect(samePoint(pieces[i - 1]!.end, pieces[i]!.start)).toBe(true);
    expect(turn(tangentOn(pieces[i - 1]!, 1), tangentOn(pieces[i]!, 0))).toBeCloseTo(0, 9);
  }
};

describe('cubics fitted to a curve', () => {
  it.each([
    ['a quarter circle', arc(100), 0, Math.PI / 2, 2],
    ['a whole circle', arc(100), 0, 2 * Math.PI, 8],
    ['a wave', wave, 0, 300, 12],
    ['a moved seam', shifted(cubic({ x: 0, y: 0 }, { x: -20, y: 70 }, { x: 30, y: 130 }, { x: 5, y: 200 })), 0, 1, 4],
  ] as const)('reach 0.001 mm on %s with few pieces', (_, curve, from, to, most) => {
    const pieces = fitCubics(curve, from, to, REFIT_TOLERANCE);
    expect(pieces.length).toBeLessThanOrEqual(most);
    expectClose(pieces, curve, from, to, REFIT_TOLERANCE);
    expectSmooth(pieces, curve, from, to);
  });

  it('are one on a cubic, and the same one', () => {
    const s = cubic({ x: 0, y: 0 }, { x: -20, y: 70 }, { x: 30, y: 130 }, { x: 5, y: 200 });
    const pieces = fitCubics({ point: (t) => pointOn(s, t), derivative: (t) => derivativeOn(s, t) }, 0, 1, 1e-6);
    expect(pieces).toHaveLength(1);
    expect(pieces[0]!.startHandle.x).toBeCloseTo(-20, 3);
    expect(pieces[0]!.endHandle.y).toBeCloseTo(130, 3);
  });

  it('are one straight cubic on a line', () => {
    const pieces = fitCubics(
      { point: (t) => ({ x: t, y: 2 * t }), derivative: () => ({ dx: 1, dy: 2 }) },
      0,
      100,
      1e-6,
    );
    expect(pieces).toHaveLength(1);
    expect(cross({ dx: 1, dy: 2 }, { dx: pieces[0]!.startHandle.x, dy: pieces[0]!.startHandle.y })).toBeCloseTo(0, 9);
  });

  it('follow any gently moved cubic', () => {
    const offset = fc.integer({ min: -300, max: 300 }).map((n) => n / 10);
    fc.assert(
      fc.property(offset, offset, (a, b) => {
        const s = cubic({ x: 0, y: 0 }, { x: a, y: 60 }, { x: b, y: 140 }, { x: 5, y: 200 });
        const curve = shifted(s);
        const pieces = fitCubics(curve, 0, 1, REFIT_TOLERANCE);
        expect(pieces.length).toBeLessThanOrEqual(6);
        expectClose(pieces, curve, 0, 1, REFIT_TOLERANCE);
      }),
      { numRuns: 30 },
    );
  });

  it('keep the direction where the curve sets off from standstill', () => {
    const s = cubic({ x: 0, y: 0 }, { x: 0, y: 0 }, { x: 40, y: 80 }, { x: 100, y: 100 });
    const curve: Curve = { point: (t) => pointOn(s, t), derivative: (t) => derivativeOn(s, t) };
    const pieces = fitCubics(curve, 0, 1, REFIT_TOLERANCE);
    expectClose(pieces, curve, 0, 1, REFIT_TOLERANCE);
    expect(turn(tangentOn(pieces[0]!, 0), { dx: 1, dy: 2 })).toBeCloseTo(0, 3);
  });

  it('come to an end on a corner, and on one point', () => {
    const kink: Curve = {
      point: (t) => ({ x: t, y: Math.abs(t - 33) }),
      derivative: (t) => ({ dx: 1, dy: t < 33 ? -1 : 1 }),
    };
    const pieces = fitCubics(kink, 0, 100, REFIT_TOLERANCE);
    expect(pieces.length).toBeLessThan(300);
    expectClose(pieces, kink, 0, 100, 0.5);
    const still = fitCubics({ point: () => ({ x: 3, y: 4 }), derivative: () => ({ dx: 0, dy: 0 }) }, 0, 1, 0.001);
    expect(still).toEqual([cubic({ x: 3, y: 4 }, { x: 3, y: 4 }, { x: 3, y: 4 }, { x: 3, y: 4 })]);
  });
});
