import type { Point } from '../geometry/point.ts';
import { pointsBox, type Box } from '../geometry/box.ts';
import { lineTouchesBox } from './touches-box.ts';

/** A rectangle for text: its middle, its sides in millimetres, and its turn in radians, clockwise on paper. */
export interface TextSpot {
  readonly middle: Point;
  readonly width: number;
  readonly height: number;
  readonly angle: number;
}

/** From the middle of the spot, along its base line and down across it. */
export const withinSpot = ({ middle, angle }: TextSpot, along: number, down: number): Point => ({
  x: middle.x + along * Math.cos(angle) - down * Math.sin(angle),
  y: middle.y + along * Math.sin(angle) + down * Math.cos(angle),
});

export const cornersOfSpot = (spot: TextSpot): Point[] => {
  const [w, h] = [spot.width / 2, spot.height / 2];
  return [withinSpot(spot, -w, -h), withinSpot(spot, w, -h), withinSpot(spot, w, h), withinSpot(spot, -w, h)];
};

/** A polygon as a line that comes back to where it began. */
export const closed = (polygon: readonly Point[]): Point[] => [...polygon, polygon[0]!];

/** Whether no line comes into the spot. Lines are open: a closed one repeats its first point. */
export const isFree = (spot: TextSpot, lines: readonly (readonly Point[])[]): boolean => {
  const around = pointsBox(cornersOfSpot(spot));
  const half = { minX: -spot.width / 2, maxX: spot.width / 2, minY: -spot.height / 2, maxY: spot.height / 2 };
  const [cos, sin] = [Math.cos(spot.angle), Math.sin(spot.angle)];
  const turnedBack = ({ x, y }: Point): Point => {
    const [dx, dy] = [x - spot.middle.x, y - spot.middle.y];
    return { x: dx * cos + dy * sin, y: dy * cos - dx * sin };
  };
  const comesIn = (from: Point, to: Point): boolean =>
    mayReach(from, to, around) && lineTouchesBox(turnedBack(from), turnedBack(to), half);
  return !lines.some((line) => line.some((p, index) => index > 0 && comesIn(line[index - 1]!, p)));
};

/** False where the whole line lies to one side of the box. */
const mayReach = (a: Point, b: Point, { minX, minY, maxX, maxY }: Box): boolean =>
  !(
    (a.x < minX && b.x < minX) ||
    (a.x > maxX && b.x > maxX) ||
    (a.y < minY && b.y < minY) ||
    (a.y > maxY && b.y > maxY)
  );

/** Whether a point lies inside a closed polygon (even-odd). */
export const isWithin = (polygon: readonly Point[], { x, y }: Point): boolean => {
  let inside = false;
  polygon.forEach((a, index) => {
    const b = polygon[(index + 1) % polygon.length]!;
    if (a.y > y !== b.y > y && x < a.x + ((y - a.y) / (b.y - a.y)) * (b.x - a.x)) inside = !inside;
  });
  return inside;
};
