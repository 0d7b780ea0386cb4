import type { Reading } from '../../geometry/fit-outline.ts';
import { distance, type Point } from '../../geometry/point.ts';

/** Readings are missing near every corner, the more the sharper it is: up to so many times what a right angle takes, and some more. */
const SHARPEST = 4;
const MORE_MM = 2.5;

/**
 * Corners of which a side is not seen for a good while: something lies over the line there, and the corner is only where the rest of the
 * line, carried on, leads to. `blunt` is how near a right-angled corner nothing is read, in pixels.
 */
export const unseenCorners = (
  corners: readonly Point[],
  readings: readonly Reading[],
  pxPerMm: number,
  blunt: number,
): Point[] => {
  const count = readings.length;
  const reach = SHARPEST * blunt + MORE_MM * pxPerMm;
  return corners.filter((corner) => {
    let nearest = 0;
    for (let i = 1; i < count; i += 1) {
      if (distance(readings[i]!.at, corner) < distance(readings[nearest]!.at, corner)) nearest = i;
    }
    return [1, -1].some((way) => {
      let i = nearest;
      for (let walked = 0; walked < count && readings[i]!.weight === 0; walked += 1) i = (i + way + count) % count;
      return distance(readings[i]!.at, corner) > reach;
    });
  });
};
