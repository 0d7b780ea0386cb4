import type { Point } from '../../geometry/point.ts';
import type { Line } from '../../geometry/segment.ts';
import type { WorkingPicture } from '../working-picture.ts';

/** Millimetres: gaps between dashes, and dashes. */
const LEAST_GAP = 0.3;
const MOST_GAP = 5;
const SHORTEST = 1.2;
const LONGEST = 12;
/** So many dashes more make a dashed line. */
const MORE = 2;
/** How much a dashed line may bend from one dash to the next, and the steps in which it is looked for, radians. */
const BEND = 0.3;
const TURN = 0.05;

/** From where a dash may begin along a direction to where it ends; nothing if there is no ink, or it goes on too long. */
const dashAlong = (
  { ink, width, height, step }: WorkingPicture,
  from: Point,
  angle: number,
  mm: number,
): { from: number; to: number } | undefined => {
  const [dx, dy] = [Math.cos(angle), Math.sin(angle)];
  const isInk = (s: number): boolean => {
    const i = Math.floor((from.x + dx * s) / step);
    const j = Math.floor((from.y + dy * s) / step);
    return i >= 0 && j >= 0 && i < width && j < height && ink[j * width + i] === 1;
  };
  let start = LEAST_GAP * mm;
  while (start <= MOST_GAP * mm && !isInk(start)) start += step / 2;
  if (start > MOST_GAP * mm) return undefined;
  let end = start;
  while (end - start <= LONGEST * mm && isInk(end + step / 2)) end += step / 2;
  return end - start >= SHORTEST * mm && end - start <= LONGEST * mm ? { from: start, to: end } : undefined;
};

/** Whether two dashes or more go on from the end of a tick, about in its direction, whether on the panel or beside it. */
export const beginsDashes = (working: WorkingPicture, { start, end }: Line, mm: number): boolean => {
  let here = end;
  let way = Math.atan2(end.y - start.y, end.x - start.x);
  for (let count = 0; count < MORE; count += 1) {
    let best: { angle: number; to: number; long: number } | undefined;
    for (let turn = -BEND; turn <= BEND; turn += TURN) {
      const dash = dashAlong(working, here, way + turn, mm);
      const long = dash ? dash.to - dash.from : 0;
      if (dash && (best === undefined || long > best.long)) best = { angle: way + turn, to: dash.to, long };
    }
    if (!best) return false;
    way = best.angle;
    here = { x: here.x + Math.cos(way) * best.to, y: here.y + Math.sin(way) * best.to };
  }
  return true;
};
