import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cornersOf } from '../../src/geometry/corners.ts';
import { pointOn } from '../../src/geometry/evaluate.ts';
import { nearestPoint } from '../../src/geometry/nearest-point.ts';
import { pathEnd, pathStart, type Path } from '../../src/geometry/path.ts';
import type { Segment } from '../../src/geometry/segment.ts';
import { simplifyPath } from '../../src/geometry/simplify-path.ts';
import { splitSegment } from '../../src/geometry/split.ts';
import { circle, curve, polygon, polyline } from '../support/shapes.ts';
import { VARIANTS } from '../support/variants.ts';

const seam = curve(0, 0, -20, 70, 30, 130, 5, 200);

const cut = (s: Segment, shares: readonly number[]): Segment[] => {
  const pieces: Segment[] = [];
  let rest = s;
  for (const share of shares) {
    const [head, tail] = splitSegment(rest, share);
    pieces.push(head);
    rest = tail;
  }
  return [...pieces, rest];
};

const expectNear = (path: Path, other: Path, tolerance: number): void => {
  for (const s of path.segments) {
    for (let i = 0; i <= 40; i += 1) {
      expect(nearestPoint(other, pointOn(s, i / 40)).distance).toBeLessThanOrEqual(tolerance * 1.05 + 1e-9);
    }
  }
};

describe('a simplified path', () => {
  it('is one cubic again after being cut up', () => {
    const share = fc.double({ min: 0.1, max: 0.9, noNaN: true });
    fc.assert(
      fc.property(fc.array(share, { minLength: 1, maxLength: 5 }), (shares) => {
        const simple = simplifyPath({ segments: cut(seam.segments[0]!, shares) }, 0.001);
        expect(simple.segments).toHaveLength(1);
        expectNear(simple, seam, 0.001);
        expect([pathStart(simple), pathEnd(simple)]).toEqual([pathStart(seam), pathEnd(seam)]);
      }),
      { numRuns: 30 },
    );
  });

  it('has lines in a line as one, and segments of no length gone', () => {
    const path = polyline([0, 0], [10, 0], [10, 0], [30, 0.0004], [60, 0], [60, 20]);
    expect(simplifyPath(path, 0.001)).toEqual(polyline([0, 0], [60, 0], [60, 20]));
    expect(simplifyPath(polyline([0, 0], [0, 0], [5, 5]), 0.001)).toEqual(polyline([0, 0], [5, 5]));
  });

  it('does not drift along many small turns', () => {
    const points = Array.from({ length: 40 }, (_, i): [number, number] => [i * 2, (i * i) / 400]);
    const path = polyline(...points);
    const simple = simplifyPath(path, 0.01);
    expect(simple.segments.length).toBeLessThan(20);
    expectNear(path, simple, 0.01);
  });

  it('keeps its corners, and what cannot be merged as it is', () => {
    const square = polygon([0, 0], [50, 0], [50, 50], [0, 50]);
    expect(simplifyPath(square, 0.01)).toEqual(square);
    expect(simplifyPath(circle(100), 0.001)).toEqual(circle(100));
    const corner = { segments: [...seam.segments, ...curve(5, 200, 60, 230, 80, 180, 120, 200).segments] };
    expect(cornersOf(simplifyPath(corner, 1))).toEqual([1]);
  });

  it('stays one point where it was one', () => {
    expect(simplifyPath(polyline([3, 3], [3, 3], [3, 3]), 0.01).segments).toHaveLength(1);
  });

  it('does not fold a line that runs back', () => {
    expect(simplifyPath(polyline([0, 0], [50, 0], [20, 0]), 0.01).segments).toHaveLength(2);
  });

  it.each(VARIANTS)('follows a shape $name', (variant) => {
    const path = variant.path({ segments: cut(seam.segments[0]!, [0.3, 0.5]) });
    const simple = simplifyPath(path, 0.001 * variant.scale);
    expect(simple.segments).toHaveLength(1);
    expectNear(path, simple, 0.001 * variant.scale);
  });
});
