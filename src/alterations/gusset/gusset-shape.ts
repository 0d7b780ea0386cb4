/**
 * The outline of a gusset: a triangle with its apex on top, whose sides are as long as the openings they are sewn to.
 *
 * The grain is its bisector: both sides lean alike from the vertical, so that neither stretches more than the other. The base leaves both
 * sides square, so that a hem that meets its seams square runs on through the gusset; where the sides are equal it is an arc about
 * the apex. Straight sides are exact. A curved side is a circular arc of the full length that bows out by `BOW` of its chord, drawn as one
 * cubic (within a millionth of the arc's length at such a turn).
 */

import { tangentOn } from '../../geometry/evaluate.ts';
import type { Path } from '../../geometry/path.ts';
import { distance, movePoint, point, type Point } from '../../geometry/point.ts';
import { cubic, line, type Cubic } from '../../geometry/segment.ts';
import { leftNormal, scaled, turn, unit, vector, vectorTo, type Vector } from '../../geometry/vector.ts';

export interface GussetShape {
  /** From the apex, at 0,0, down to the lower back corner. */
  readonly back: Path;
  /** From the lower back to the lower front corner. */
  readonly bottom: Path;
  /** From the lower front corner up to the apex. */
  readonly front: Path;
  /** Between the two sides where they leave the apex, in radians. */
  readonly apexAngle: number;
}

export interface GussetMeasures {
  /** Lengths of the sides, along them. */
  readonly front: number;
  readonly back: number;
  /** Between the two lower corners, in a straight line. */
  readonly width: number;
  readonly sides: 'straight' | 'curved';
}

/** How far a curved side bows out, as a share of its chord: 4 mm on 120 mm, as a hip curve laid between the two ends. Our choice. */
const BOW = 1 / 30;

/** The angle through which an arc of that bow turns. */
const BOW_TURN = 4 * Math.atan(2 * BOW);

/** The chord of a side. */
export const sideChord = (length: number, sides: GussetMeasures['sides']): number =>
  sides === 'straight' ? length : (length * Math.sin(BOW_TURN / 2)) / (BOW_TURN / 2);

const turned = ({ dx, dy }: Vector, by: number): Vector => {
  const [cos, sin] = [Math.cos(by), Math.sin(by)];
  return vector(cos * dx - sin * dy, sin * dx + cos * dy);
};

/** From point to point with the given unit tangents; the arc of a circle, within the reach of one cubic, where they lean alike. */
const arcLike = (from: Point, to: Point, out: Vector, into: Vector): Cubic => {
  const handle = distance(from, to) / (3 * Math.cos(turn(out, into) / 4) ** 2);
  return cubic(from, movePoint(from, scaled(out, handle)), movePoint(to, scaled(into, -handle)), to);
};

/** One side, bowing to the left of its direction: both sides run so that this is outwards, as the outline runs clockwise. */
const sideOf = (from: Point, to: Point, sides: GussetMeasures['sides']): Path => {
  if (sides === 'straight') return { segments: [line(from, to)] };
  const along = unit(vectorTo(from, to));
  return { segments: [arcLike(from, to, turned(along, -BOW_TURN / 2), turned(along, BOW_TURN / 2))] };
};

/**
 * The outline of a gusset; undefined where its sides and its width close to no triangle. Lengths in millimetres, exact to 0.001 mm;
 * a corner's angle is that of the triangle of its chords, by the law of cosines.
 */
export const gussetShape = ({ front, back, width, sides }: GussetMeasures): GussetShape | undefined => {
  const [a, b] = [sideChord(front, sides), sideChord(back, sides)];
  if (!(width < a + b) || !(width > Math.abs(a - b))) return undefined;
  const half = Math.acos((a * a + b * b - width * width) / (2 * a * b)) / 2;
  const apex = point(0, 0);
  const lower = (chord: number, way: -1 | 1): Point => point(way * chord * Math.sin(half), chord * Math.cos(half));
  const [toFront, toBack] = [lower(a, -1), lower(b, 1)];
  const backSide = sideOf(apex, toBack, sides);
  const frontSide = sideOf(toFront, apex, sides);
  const out = scaled(leftNormal(tangentOn(backSide.segments[0]!, 1)), -1);
  const into = leftNormal(tangentOn(frontSide.segments[0]!, 0));
  return {
    back: backSide,
    bottom: { segments: [arcLike(toBack, toFront, out, into)] },
    front: frontSide,
    apexAngle: 2 * half + (sides === 'curved' ? BOW_TURN : 0),
  };
};
