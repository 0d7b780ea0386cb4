import { polygonArea } from '../../geometry/area.ts';
import type { RoughOutline } from '../rough-outline.ts';
import { insidePolygon } from './inside-polygon.ts';

/** Points of an outline that are asked whether they lie inside another. */
const ASKED = 25;

/** The share of them that must: two outlines may share a stretch of line, or cross a little. */
const MOST = 0.8;

/** Gives each outline the number of the smallest one round it, if there is one. */
export const nestOutlines = (outlines: readonly Omit<RoughOutline, 'within'>[]): RoughOutline[] => {
  const areas = outlines.map(({ points }) => polygonArea(points));
  return outlines.map((outline, own) => {
    const asked = Array.from(
      { length: ASKED },
      (_, k) => outline.points[Math.floor((k * outline.points.length) / ASKED)]!,
    );
    let within: number | undefined;
    outlines.forEach((other, number) => {
      if (number === own || areas[number]! <= areas[own]! || (within !== undefined && areas[within]! <= areas[number]!))
        return;
      if (asked.filter((place) => insidePolygon(other.points, place)).length >= MOST * ASKED) within = number;
    });
    return within === undefined ? outline : { ...outline, within };
  });
};
