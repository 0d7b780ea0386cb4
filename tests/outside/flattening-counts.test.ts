/**
 * How many chords a circle needs: an even polygon whose chords leave it by the tolerance has pi / acos(1 - tolerance/R) sides, so 71 for a
 * radius of 100 at 0.1 and 223 at 0.01 (geometry). No flattening within the tolerance can have fewer but for the four cubics' own
 * error of 0.027; ours has at most a tenth more.
 */
import { describe, expect, it } from 'vitest';
import { flattenPath } from '../../src/geometry/flatten.ts';
import { circle } from '../support/shapes.ts';

describe('a flattened circle of radius 100', () => {
  it.each([
    [0.1, 71],
    [0.01, 223],
  ])('by twelve cubics at %d has close to %d chords', (tolerance, fewest) => {
    expect(Math.ceil(Math.PI / Math.acos(1 - tolerance / 100))).toBe(fewest);
    const chords = flattenPath(circle(100, 12), tolerance).length - 1;
    expect(chords).toBeGreaterThanOrEqual(fewest);
    expect(chords).toBeLessThanOrEqual(fewest * 1.1);
  });

  it('by four cubics has close to as many', () => {
    for (const [tolerance, fewest] of [
      [0.1, 71],
      [0.01, 223],
    ] as const) {
      const chords = flattenPath(circle(100), tolerance).length - 1;
      expect(chords / fewest).toBeGreaterThan(0.95);
      expect(chords / fewest).toBeLessThan(1.1);
    }
  });
});
