/**
 * Perimeters of ellipses: 4 a E(e), by the arithmetic-geometric mean (Digital Library of Mathematical Functions 19.8.6, named so in
 * the documentation of an open geometry library; the page itself was not seen); the figures were computed independently.
 * Ramanujan's two approximations come close from below: the first as given in that documentation, the second from memory.
 */
import { describe, expect, it } from 'vitest';
import { pathLength } from '../../src/geometry/arc-length.ts';
import { ellipse } from '../support/shapes.ts';

const byAgm = (a: number, b: number): number => {
  let [x, y] = [1, b / a];
  let sum = 1 - (1 - y * y) / 2;
  for (let power = 1; Math.abs(x - y) > 1e-15; power *= 2) {
    const c = (x - y) / 2;
    [x, y] = [(x + y) / 2, Math.sqrt(x * y)];
    sum -= power * c * c;
  }
  return (2 * Math.PI * a * sum) / x;
};

describe('the perimeter of an ellipse', () => {
  it.each([
    [2, 1, 9.6884482205],
    [15, 11, 82.1654501835],
    [10, 1, 40.639741801],
    [140, 100, 759.227379],
  ])('of semi-axes %d and %d is %d', (a, b, known) => {
    expect(byAgm(a, b)).toBeCloseTo(known, 6);
    expect(pathLength(ellipse(a, b, 256), 1e-10)).toBeCloseTo(known, 6);
  });

  it('is a little more than both of Ramanujan say', () => {
    const [a, b] = [2, 1];
    const h = ((a - b) / (a + b)) ** 2;
    const first = Math.PI * (3 * (a + b) - Math.sqrt((3 * a + b) * (a + 3 * b)));
    const second = Math.PI * (a + b) * (1 + (3 * h) / (10 + Math.sqrt(4 - 3 * h)));
    expect(first).toBeCloseTo(9.6884210977, 9);
    expect(second).toBeCloseTo(9.6884482161, 9);
    const length = pathLength(ellipse(a, b, 256), 1e-10);
    expect(length - second).toBeGreaterThan(3e-9);
    expect(length - first).toBeLessThan(3e-5);
  });
});
