import { describe, expect, it } from 'vitest';
import { signedArea } from '../../src/geometry/area.ts';
import { tangentOn } from '../../src/geometry/evaluate.ts';
import { fitOutline, type Reading } from '../../src/geometry/fit-outline.ts';
import { isClosed, type Path } from '../../src/geometry/path.ts';
import { distance, samePoint } from '../../src/geometry/point.ts';
import { dot } from '../../src/geometry/vector.ts';
import { readingsOf, score, SHAPES, type Spoil } from './fit-outline-shapes.ts';

/** Millimetres that the result may be off, whatever the shape: root mean square, at most, at a corner. */
type Limits = readonly [rms: number, max: number, corner: number];

const CASES: Readonly<Record<string, { spoil: Spoil; limits: Limits }>> = {
  'quiet readings': { spoil: { noise: 0.06 }, limits: [0.004, 0.015, 0.015] },
  'outliers, gaps and worn corners': {
    spoil: { noise: 0.06, outliers: 0.02, gaps: 4, worn: 0.5 },
    limits: [0.004, 0.015, 0.02],
  },
  'noise that goes together over 8 pixels': { spoil: { noise: 0.03, correlated: 0.06 }, limits: [0.008, 0.03, 0.06] },
  'readings in whole pixels': { spoil: { rounded: true, noise: 0.05 }, limits: [0.01, 0.045, 0.06] },
};

const PANELS = ['rectangle', 'panel', 'bust', 'gusset', 'obtuse', 'sCurve'];
const ROUND = ['circle100', 'ellipse'];

const expectSound = (path: Path): void => {
  expect(isClosed(path)).toBe(true);
  for (const [i, s] of path.segments.entries()) {
    expect(samePoint(s.end, path.segments[(i + 1) % path.segments.length]!.start)).toBe(true);
    if (s.kind === 'line') continue;
    expect(distance(s.start, s.startHandle)).toBeGreaterThan(0);
    expect(distance(s.endHandle, s.end)).toBeGreaterThan(0);
    for (let t = 0; t < 1; t += 0.05) {
      expect(dot(tangentOn(s, t), tangentOn(s, t + 0.05))).toBeGreaterThan(0.5);
    }
  }
};

describe('an outline through noisy readings', () => {
  for (const [what, { spoil, limits }] of Object.entries(CASES)) {
    it.each([...PANELS, ...ROUND])(`follows the %s through ${what}`, (name) => {
      const s = score(SHAPES[name]!, { ...spoil, seed: 1, begin: 0.37 });
      expect(s.found, 'corners').toBe(s.wanted);
      expect(s.rms).toBeLessThan(limits[0]);
      expect(s.max).toBeLessThan(limits[1]);
      expect(s.corner).toBeLessThan(limits[2]);
      expect(s.segments).toBeLessThanOrEqual(16);
      expectSound(s.fitted.path);
      expect(signedArea(s.fitted.path)).toBeGreaterThan(0);
    });
  }

  it('finds corners of 15 to 20 degrees and none on the curves beside them', () => {
    const s = score(SHAPES['obtuse']!, { noise: 0.06, seed: 3, worn: 0.5 });
    expect(s.found).toBe(s.wanted);
    expect(s.corner).toBeLessThan(0.03);
  });

  it('finds corners 4 mm apart', () => {
    const s = score(SHAPES['nearCorners']!, { noise: 0.06, seed: 1 });
    expect(s.found).toBe(s.wanted);
    expect(s.max).toBeLessThan(0.03);
  });

  it('takes a curve of 6 mm radius for no corner', () => {
    for (const seed of [1, 2, 3]) {
      const s = score(SHAPES['circle6']!, { noise: 0.06, seed });
      expect(s.found).toBe(0);
      expect(s.max).toBeLessThan(0.015);
    }
  });

  it('keeps straight edges as lines', () => {
    const s = score(SHAPES['rectangle']!, { noise: 0.06 });
    expect(s.fitted.path.segments.map((e) => e.kind)).toEqual(['line', 'line', 'line', 'line']);
  });

  it('needs no more pieces than the curve was drawn with', () => {
    expect(score(SHAPES['gusset']!, { noise: 0.06, seed: 2 }).segments).toBe(3);
    expect(score(SHAPES['rectangle']!, { noise: 0.06, seed: 2 }).segments).toBe(4);
  });

  it('says how far the readings lie from it', () => {
    expect(score(SHAPES['panel']!, { noise: 0.06, outliers: 0.02 }).fitted.spread).toBeCloseTo(0.06, 2);
  });

  it('turns, moves and scales with the readings', () => {
    const readings = readingsOf(SHAPES['gusset']!, { noise: 0.06, worn: 0.5 });
    const [cos, sin] = [Math.cos(0.7), Math.sin(0.7)];
    const moved = readings.map(({ at: { x, y }, weight }): Reading => ({
      at: { x: 3 * (cos * x - sin * y) + 1000, y: 3 * (sin * x + cos * y) - 400 },
      weight,
    }));
    const a = fitOutline(readings, { pxPerMm: 11.8, blunt: 7 });
    const b = fitOutline(moved, { pxPerMm: 35.4, blunt: 21 });
    expect(b.corners.length).toBe(a.corners.length);
    for (const { x, y } of a.corners) {
      const at = { x: 3 * (cos * x - sin * y) + 1000, y: 3 * (sin * x + cos * y) - 400 };
      expect(Math.min(...b.corners.map((c) => distance(c, at)))).toBeLessThan(0.05);
    }
  });

  it('gives the polygon of readings that are too few to fit', () => {
    const places = [0, 1, 2].map((i): Reading => ({ at: { x: i, y: i * i }, weight: 1 }));
    for (const n of [0, 1, 2, 3]) {
      const { path } = fitOutline(places.slice(0, n), { pxPerMm: 11.8, blunt: 7 });
      expect(path.segments.map((s) => s.start)).toEqual(places.slice(0, n).map((p) => p.at));
    }
    const blind = readingsOf(SHAPES['circle6']!, {}).map(({ at }): Reading => ({ at, weight: 0 }));
    expect(fitOutline(blind, { pxPerMm: 11.8, blunt: 7 }).path.segments.length).toBe(blind.length);
  });
});
