import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lengthBetween, lengthTo, locationAtLength, pathLength, segmentLength } from '../../src/geometry/arc-length.ts';
import { pointOn } from '../../src/geometry/evaluate.ts';
import { distance } from '../../src/geometry/point.ts';
import type { Segment } from '../../src/geometry/segment.ts';
import { anyCubic, anyParameter } from '../support/arbitrary-curves.ts';
import { circle, curve, polyline } from '../support/shapes.ts';
import { VARIANTS } from '../support/variants.ts';

/** Many chords: always a little short, by less than the caller allows for. */
const chords = (s: Segment, count: number): number => {
  let sum = 0;
  for (let i = 0; i < count; i += 1) sum += distance(pointOn(s, i / count), pointOn(s, (i + 1) / count));
  return sum;
};

/** The height over t of control values 0, 200, -100, 100. */
const back = (t: number): number => 600 * (1 - t) ** 2 * t - 300 * (1 - t) * t * t + 100 * t ** 3;

const NASTY = {
  'a tight hook': curve(0, 0, 300, 0, -200, 0.5, 100, 1),
  'a cusp': curve(0, 0, 100, 100, 0, 100, 100, 0),
  'a loop': curve(0, 0, 150, 100, -50, 100, 100, 0),
  'handles of no length': curve(0, 0, 0, 0, 100, 50, 100, 50),
  'a curve that runs back on itself': curve(0, 0, 200, 0, -100, 0, 100, 0),
  'a gentle seam': curve(0, 0, -20, 70, 30, 130, 5, 200),
};

describe('arc length', () => {
  it.each(Object.entries(NASTY))('of %s agrees with many chords', (_, path) => {
    const s = path.segments[0]!;
    const [fine, finer] = [chords(s, 20_000), chords(s, 40_000)];
    expect(pathLength(path)).toBeGreaterThan(finer - 1e-4);
    expect(pathLength(path)).toBeLessThan(finer + (finer - fine) + 1e-4);
  });

  it('of a curve that runs back on itself counts every way it goes', () => {
    let sum = 0;
    for (let i = 0; i < 100_000; i += 1) sum += Math.abs(back((i + 1) / 100_000) - back(i / 100_000));
    expect(pathLength(NASTY['a curve that runs back on itself'])).toBeCloseTo(sum, 4);
  });

  it.each(VARIANTS)('follows a shape $name', (variant) => {
    for (const path of Object.values(NASTY)) {
      const wanted = pathLength(path) * variant.scale;
      expect(Math.abs(pathLength(variant.path(path)) - wanted)).toBeLessThan(3e-4 * Math.max(1, variant.scale));
    }
  });

  it('adds up over the parts of any cubic', () => {
    fc.assert(
      fc.property(anyCubic, anyParameter, (s, t) => {
        expect(lengthBetween(s, 0, t) + lengthBetween(s, t, 1)).toBeCloseTo(segmentLength(s), 3);
      }),
    );
  });

  it('is 0 for a point', () => {
    expect(pathLength(curve(5, 5, 5, 5, 5, 5, 5, 5))).toBe(0);
    expect(pathLength(polyline([5, 5], [5, 5]))).toBe(0);
  });
});

describe('the place at a length', () => {
  it('is where that length has been run, on any cubic', () => {
    fc.assert(
      fc.property(anyCubic, anyParameter, (s, share) => {
        const path = { segments: [s] };
        const wanted = segmentLength(s) * share;
        expect(lengthTo(path, locationAtLength(path, wanted))).toBeCloseTo(wanted, 3);
      }),
    );
  });

  it('is at the ends for lengths beyond them', () => {
    const path = polyline([0, 0], [10, 0], [10, 10]);
    expect(locationAtLength(path, -3)).toEqual({ segment: 0, t: 0 });
    expect(locationAtLength(path, 99)).toEqual({ segment: 1, t: 1 });
    expect(locationAtLength(path, 15)).toEqual({ segment: 1, t: 0.5 });
  });

  it('divides a circle evenly', () => {
    const path = circle(100);
    const eighth = locationAtLength(path, pathLength(path) / 8);
    expect(eighth.segment).toBe(0);
    expect(eighth.t).toBeCloseTo(0.5, 9);
  });
});
