import { describe, expect, it } from 'vitest';
import { cornersOf } from '../../src/geometry/corners.ts';
import { circle, curve, polygon, polyline } from '../support/shapes.ts';
import { VARIANTS } from '../support/variants.ts';

describe('corners', () => {
  it('are all four of a square, and none of a circle', () => {
    expect(cornersOf(polygon([0, 0], [10, 0], [10, 10], [0, 10]))).toEqual([0, 1, 2, 3]);
    expect(cornersOf(circle(50))).toEqual([]);
  });

  it('are not the ends of an open path', () => {
    expect(cornersOf(polyline([0, 0], [10, 0], [10, 10]))).toEqual([1]);
  });

  it('begin at a turn of 0.01', () => {
    expect(cornersOf(polyline([0, 0], [100, 0], [200, 0.9]))).toEqual([]);
    expect(cornersOf(polyline([0, 0], [100, 0], [200, 1.1]))).toEqual([1]);
  });

  it('are turns right back', () => {
    expect(cornersOf(polyline([0, 0], [100, 0], [50, 0]))).toEqual([1]);
  });

  it('are seen across a segment that is one point', () => {
    expect(cornersOf(polyline([0, 0], [10, 0], [10, 0], [10, 10]))).toEqual([2]);
    expect(cornersOf(polyline([0, 0], [10, 0], [10, 0], [20, 0]))).toEqual([]);
  });

  it('are seen where a handle has no length', () => {
    const path = { segments: [...polyline([-50, 0], [0, 0]).segments, ...curve(0, 0, 0, 0, 0, 40, 30, 60).segments] };
    expect(cornersOf(path)).toEqual([1]);
    const smooth = { segments: [...polyline([0, -50], [0, 0]).segments, ...curve(0, 0, 0, 0, 0, 40, 30, 60).segments] };
    expect(cornersOf(smooth)).toEqual([]);
  });

  it.each(VARIANTS)('follow a shape $name', (variant) => {
    const path = variant.path(polygon([0, 0], [30, 0], [60, 0], [60, 50], [0, 50]));
    expect(cornersOf(path)).toHaveLength(4);
  });
});
