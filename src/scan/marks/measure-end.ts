import type { Point } from '../../geometry/point.ts';
import type { Line } from '../../geometry/segment.ts';
import type { Picture } from '../picture.ts';
import { lightAt } from './light-at.ts';

/**
 * Where a straight stroke of ink ends: along its measured middle, the half level between its own light and that of the paper ahead,
 * searched `reach` pixels to both sides of where it seems to end. Its given end if there is no such place.
 */
export const measureEnd = (picture: Picture, stroke: Line, width: number, reach: number): Point => {
  const { start, end } = stroke;
  const long = Math.hypot(end.x - start.x, end.y - start.y);
  const [dx, dy] = [(end.x - start.x) / long, (end.y - start.y) / long];
  const sides = [-0.25, 0, 0.25].map((share) => share * width);
  const light = (s: number): number =>
    sides.reduce((sum, off) => sum + lightAt(picture, end.x + dx * s - dy * off, end.y + dy * s + dx * off), 0) /
    sides.length;
  const step = 0.25;
  const levels = (from: number, to: number): number[] => {
    const found: number[] = [];
    for (let s = from; s <= to; s += step) found.push(light(s));
    return found.toSorted((a, b) => a - b);
  };
  const own = levels(Math.max(-long / 2, -2 * reach), -reach);
  const ink = own[Math.floor(own.length / 2)]!;
  const ahead = levels(reach / 2, 1.5 * reach);
  const paper = ahead[Math.floor(ahead.length * 0.75)]!;
  const level = (ink + paper) / 2;
  let last = light(-reach);
  if (last >= level) return end;
  for (let s = -reach + step; s <= 1.5 * reach; s += step) {
    const value = light(s);
    if (value >= level) {
      const at = s - (step * (value - level)) / (value - last);
      return { x: end.x + dx * at, y: end.y + dy * at };
    }
    last = value;
  }
  return end;
};
