import { describe, expect, it } from 'vitest';
import { unseenCorners } from '../../../src/scan/outline/unseen-corners.ts';

const PX_PER_MM = 10;
const BLUNT = 4;

/** A square of 400 pixels, read at every pixel except where `covered`. */
const squareReadings = (covered: (x: number, y: number) => boolean) =>
  [...Array(1600).keys()].map((k) => {
    const s = (k % 400) + 0.5;
    const at = [
      { x: s, y: 0 },
      { x: 400, y: s },
      { x: 400 - s, y: 400 },
      { x: 0, y: 400 - s },
    ][Math.floor(k / 400)]!;
    return { at, weight: covered(at.x, at.y) ? 0 : 1 };
  });

const CORNERS = [
  { x: 0, y: 0 },
  { x: 400, y: 0 },
  { x: 400, y: 400 },
  { x: 0, y: 400 },
];

const near = (x: number, y: number, reach: number) => CORNERS.some((c) => Math.hypot(c.x - x, c.y - y) < reach);

describe('unseenCorners', () => {
  it('takes what is worn at every corner for no cover', () => {
    const readings = squareReadings((x, y) => near(x, y, BLUNT * 2));
    expect(unseenCorners(CORNERS, readings, PX_PER_MM, BLUNT)).toEqual([]);
  });

  it('tells the corner of which one side is covered for 6 mm', () => {
    const readings = squareReadings((x, y) => near(x, y, BLUNT) || (y === 0 && x > 340));
    expect(unseenCorners(CORNERS, readings, PX_PER_MM, BLUNT)).toEqual([{ x: 400, y: 0 }]);
  });

  it('does not tell a side that is covered away from its corners', () => {
    const readings = squareReadings((x, y) => near(x, y, BLUNT) || (y === 0 && x > 150 && x < 340));
    expect(unseenCorners(CORNERS, readings, PX_PER_MM, BLUNT)).toEqual([]);
  });

  it('ends where nothing was read at all', () => {
    const readings = squareReadings(() => true);
    expect(() => unseenCorners(CORNERS, readings, PX_PER_MM, BLUNT)).not.toThrow();
  });
});
