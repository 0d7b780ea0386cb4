import { describe, expect, it } from 'vitest';
import { polygonArea } from '../../src/geometry/area.ts';
import { pointsBox } from '../../src/geometry/box.ts';

const SQUARE = [
  { x: 2, y: -1 },
  { x: 5, y: -1 },
  { x: 5, y: 2 },
  { x: 2, y: 2 },
];

describe('points round a polygon', () => {
  it('have the smallest box that holds them, and none an empty one', () => {
    expect(pointsBox(SQUARE)).toEqual({ minX: 2, minY: -1, maxX: 5, maxY: 2 });
    expect(pointsBox([]).minX).toBeGreaterThan(pointsBox([]).maxX);
  });

  it('enclose an area that is positive clockwise on paper', () => {
    expect(polygonArea(SQUARE)).toBe(9);
    expect(polygonArea(SQUARE.toReversed())).toBe(-9);
  });
});
