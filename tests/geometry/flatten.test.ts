import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pointOn } from '../../src/geometry/evaluate.ts';
import { flattenPath } from '../../src/geometry/flatten.ts';
import { nearestPoint } from '../../src/geometry/nearest-point.ts';
import { line } from '../../src/geometry/segment.ts';
import { anyCubic } from '../support/arbitrary-curves.ts';
import { polyline } from '../support/shapes.ts';

describe('a flattened path', () => {
  it('stays within the tolerance of any cubic', () => {
    fc.assert(
      fc.property(anyCubic, fc.constantFrom(0.5, 0.1), (s, tolerance) => {
        const points = flattenPath({ segments: [s] }, tolerance);
        const chords = { segments: points.slice(1).map((p, i) => line(points[i]!, p)) };
        for (let i = 0; i <= 300; i += 1) {
          expect(nearestPoint(chords, pointOn(s, i / 300)).distance).toBeLessThanOrEqual(tolerance * (1 + 1e-9));
        }
      }),
      { numRuns: 40 },
    );
  });

  it('has each of its own nodes once, and lines as they are', () => {
    expect(flattenPath(polyline([0, 0], [10, 0], [10, 5]), 0.01)).toEqual([
      { x: 0, y: 0 },
      { x: 10, y: 0 },
      { x: 10, y: 5 },
    ]);
  });

  it('is bounded however fine it is asked to be', () => {
    fc.assert(
      fc.property(anyCubic, (s) => {
        expect(flattenPath({ segments: [s] }, 1e-12).length).toBeLessThanOrEqual(10_001);
      }),
      { numRuns: 5 },
    );
  });
});
