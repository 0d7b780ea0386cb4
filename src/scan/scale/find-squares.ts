import { distance, type Point } from '../../geometry/point.ts';
import { cross, leftNormal, turn, unit, vectorTo, type Vector } from '../../geometry/vector.ts';
import type { OutlineEdge, RoughOutline } from '../rough-outline.ts';
import { meetSides, type Corners } from './meet-sides.ts';
import { fitSide } from './fit-side.ts';

/** An outline that may be a square, of any size, before it is measured. */
export interface SquareOutline {
  /** Its number among the outlines. */
  readonly outline: number;
  readonly edge: OutlineEdge;
  readonly corners: Corners;
  /** The mean of its sides, in pixels. */
  readonly side: number;
}

/** How much longer than the shortest side the longest may be: rows and columns differ by a few per cent, and shear adds its own. */
const UNEVENNESS = 1.07;

/** How far a corner may be from square: 2 degrees of shear, as much again from unlike scales at 45 degrees, and the rough outline. */
const CORNER_OFF = (5.5 * Math.PI) / 180;

/** How far off its side an outline may run, as a share of the side, and how much of it must be within that. */
const STRAY = 0.015;
const STRAIGHT_SHARE = 0.92;

/** How near an outline must come to each corner, as a share of a side: it may be rounded a little, but not cut off. */
const CORNER_REACH = 0.08;

/** A rough outline is no straighter than this share of a side. */
const ROUGHNESS = 0.003;

/** Places on an outline that are looked at, and the share of a side at each end that is left to its corners. */
const SAMPLES = 400;
const CORNER_SHARE = 0.1;

/**
 * The outlines with four straight sides, right angles and even sides as far as a scan shows them so: turned to any angle, rows and columns
 * up to some per cent unlike, sheared up to 2 degrees, worn in places. Sizes are not judged here.
 */
export const findSquares = (outlines: readonly RoughOutline[]): SquareOutline[] =>
  outlines.flatMap(({ points, edge }, outline) => {
    const corners = squareCorners(points);
    if (corners === undefined) return [];
    return [{ outline, edge, corners, side: sidesOf(corners).reduce((sum, side) => sum + side, 0) / 4 }];
  });

const squareCorners = (points: readonly Point[]): Corners | undefined => {
  if (points.length < 4) return undefined;
  const samples = alongOutline(points, SAMPLES);
  if (samples.length === 0) return undefined;
  let corners = farthestCorners(samples);
  for (let round = 0; round < 2 && corners !== undefined; round += 1) corners = refined(corners, samples);
  if (corners === undefined || !isSquare(corners)) return undefined;
  const stray = STRAY * Math.max(...sidesOf(corners));
  const on = samples.filter((p) => Math.min(...[0, 1, 2, 3].map((i) => distanceToSide(p, corners, i))) <= stray);
  if (on.length < STRAIGHT_SHARE * samples.length) return undefined;
  const blunt = CORNER_REACH * Math.min(...sidesOf(corners));
  return corners.every((corner) => samples.some((p) => distance(p, corner) <= blunt)) ? corners : undefined;
};

const sidesOf = (corners: Corners): number[] => corners.map((p, i) => distance(p, corners[(i + 1) % 4]!));

const isSquare = (corners: Corners): boolean => {
  const sides = sidesOf(corners);
  if (Math.max(...sides) > UNEVENNESS * Math.min(...sides)) return false;
  return corners.every((p, i) => {
    const before = vectorTo(corners[(i + 3) % 4]!, p);
    const after = vectorTo(p, corners[(i + 1) % 4]!);
    return Math.abs(turn(before, after) - Math.PI / 2) <= CORNER_OFF;
  });
};

/** Points at even steps round a closed outline. */
const alongOutline = (points: readonly Point[], count: number): Point[] => {
  const lengths = points.map((p, i) => distance(p, points[(i + 1) % points.length]!));
  const step = lengths.reduce((sum, length) => sum + length, 0) / count;
  const samples: Point[] = [];
  let passed = 0;
  points.forEach((p, i) => {
    const along = unit(vectorTo(p, points[(i + 1) % points.length]!));
    for (let at = samples.length * step - passed; at < lengths[i]! && samples.length < count; at += step) {
      samples.push({ x: p.x + along.dx * at, y: p.y + along.dy * at });
    }
    passed += lengths[i]!;
  });
  return samples;
};

/** A square's corners are what lies farthest out: from its middle, from the corner so found, and to both sides of that diagonal. */
const farthestCorners = (samples: readonly Point[]): Corners | undefined => {
  const middle = {
    x: samples.reduce((sum, p) => sum + p.x, 0) / samples.length,
    y: samples.reduce((sum, p) => sum + p.y, 0) / samples.length,
  };
  const first = most(samples, (p) => distance(middle, p));
  const third = most(samples, (p) => distance(first, p));
  const diagonal = vectorTo(first, third);
  const second = most(samples, (p) => -cross(diagonal, vectorTo(first, p)));
  const fourth = most(samples, (p) => cross(diagonal, vectorTo(first, p)));
  const corners: Corners = [first, second, third, fourth];
  return Math.min(...sidesOf(corners)) > 0 ? corners : undefined;
};

const most = (samples: readonly Point[], measure: (p: Point) => number): Point =>
  samples.reduce((best, p) => (measure(p) > measure(best) ? p : best));

/** The corners at which straight lines meet that are fitted to the samples near each side. */
const refined = (corners: Corners, samples: readonly Point[]): Corners | undefined => {
  const [shortest, longest] = [Math.min(...sidesOf(corners)), Math.max(...sidesOf(corners))];
  if (longest > 2 * shortest) return undefined;
  const lines = corners.map((start, i) => {
    const end = corners[(i + 1) % 4]!;
    const length = distance(start, end);
    const direction = unit(vectorTo(start, end));
    const normal = leftNormal(direction);
    const near = samples
      .map((p) => ({ along: dotFrom(start, p, direction) / length, offset: dotFrom(start, p, normal) }))
      .filter(({ along, offset }) => {
        return along > CORNER_SHARE && along < 1 - CORNER_SHARE && Math.abs(offset) < CORNER_SHARE * length;
      });
    const along = Float64Array.from(near, (p) => (p.along - 0.5) * length);
    const fit = fitSide(
      { along, offset: Float64Array.from(near, (p) => p.offset) },
      2 * STRAY * length,
      ROUGHNESS * length,
    );
    if (fit === undefined) return undefined;
    const middle = {
      x: (start.x + end.x) / 2 + normal.dx * fit.middle,
      y: (start.y + end.y) / 2 + normal.dy * fit.middle,
    };
    return {
      point: middle,
      direction: { dx: direction.dx + normal.dx * fit.slope, dy: direction.dy + normal.dy * fit.slope },
    };
  });
  const [top, right, bottom, left] = lines;
  return top && right && bottom && left ? meetSides([top, right, bottom, left]) : undefined;
};

const dotFrom = (from: Point, p: Point, v: Vector): number => (p.x - from.x) * v.dx + (p.y - from.y) * v.dy;

const distanceToSide = (p: Point, corners: Corners, i: number): number => {
  const start = corners[i]!;
  const direction = unit(vectorTo(start, corners[(i + 1) % 4]!));
  const along = Math.min(Math.max(dotFrom(start, p, direction), 0), distance(start, corners[(i + 1) % 4]!));
  return distance(p, { x: start.x + direction.dx * along, y: start.y + direction.dy * along });
};
