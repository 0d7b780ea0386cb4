import type { Point } from '../../geometry/point.ts';
import type { RoughOutline } from '../rough-outline.ts';

/** Points of an outline that are asked whether they lie inside another. */
const ASKED = 25;

/** The share of them that must: two outlines may share a stretch of line, or cross a little. */
const MOST = 0.8;

const doubleArea = (points: readonly Point[]): number =>
  points.reduce((sum, p, k) => {
    const q = points.at(k - 1)!;
    return sum + q.x * p.y - p.x * q.y;
  }, 0);

/** Whether a place lies inside a closed polygon, by the crossings to its right. */
const holds = (points: readonly Point[], { x, y }: Point): boolean => {
  let inside = false;
  for (let k = 0, before = points.length - 1; k < points.length; before = k, k += 1) {
    const [p, q] = [points[before]!, points[k]!];
    if (p.y > y !== q.y > y && x < p.x + ((q.x - p.x) * (y - p.y)) / (q.y - p.y)) inside = !inside;
  }
  return inside;
};

/** Gives each outline the number of the smallest one round it, if there is one. */
export const nestOutlines = (outlines: readonly Omit<RoughOutline, 'within'>[]): RoughOutline[] => {
  const areas = outlines.map(({ points }) => doubleArea(points));
  return outlines.map((outline, own) => {
    const asked = Array.from(
      { length: ASKED },
      (_, k) => outline.points[Math.floor((k * outline.points.length) / ASKED)]!,
    );
    let within: number | undefined;
    outlines.forEach((other, number) => {
      if (number === own || areas[number]! <= areas[own]! || (within !== undefined && areas[within]! <= areas[number]!))
        return;
      if (asked.filter((place) => holds(other.points, place)).length >= MOST * ASKED) within = number;
    });
    return within === undefined ? outline : { ...outline, within };
  });
};
