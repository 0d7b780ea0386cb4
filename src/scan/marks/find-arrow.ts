/** Arrowheads: two barbs back from a line's end, one to each side at like angles, or the two sides of a filled triangle. */
import type { Point } from '../../geometry/point.ts';
import type { Line } from '../../geometry/segment.ts';
import { pixelAt, type MarkField } from './mark-field.ts';

/** Degrees from the line. */
const FLATTEST = 12;
const STEEPEST = 56;
const UNLIKE = 12;
/** Millimetres: shortest and longest barb, how far its end lies off the line, gaps in it, how far off its tip may lie. */
const SHORTEST = 1.6;
const LONGEST = 9;
const SPREAD = 0.75;
const GAP = 0.4;
const BEFORE = 1.2;
const BEYOND = 0.6;

export interface Arrow {
  readonly tip: Point;
  /** The outer ends of its barbs, left and right of the line as it goes to the tip. */
  readonly barbs: readonly [Point, Point];
}

interface Barb {
  readonly angle: number;
  readonly long: number;
}

/** How far there is ink from a place along a direction. */
const inkAlong = (field: MarkField, at: Point, dx: number, dy: number, mm: number): number => {
  let last = 0;
  const step = field.step / 2;
  for (let s = 0; s <= LONGEST * mm; s += step) {
    const p = pixelAt(field, at.x + dx * s, at.y + dy * s);
    if (p >= 0 && field.ink[p] === 1) last = s;
    else if (s - last > GAP * mm) break;
  }
  return last;
};

const barbFrom = (field: MarkField, tip: Point, back: Point, side: 1 | -1, mm: number): Barb | undefined => {
  let best: Barb | undefined;
  for (let degrees = FLATTEST; degrees <= STEEPEST; degrees += 2) {
    const angle = (side * degrees * Math.PI) / 180;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    const long = inkAlong(field, tip, back.x * c - back.y * s, back.x * s + back.y * c, mm);
    const isBarb = long >= SHORTEST * mm && long * Math.abs(s) >= SPREAD * mm;
    if (isBarb && (best === undefined || long * Math.abs(s) >= best.long * Math.abs(Math.sin(best.angle))))
      best = { angle, long };
  }
  return best;
};

/** The arrowhead at the end of a line, if there is one. */
export const findArrow = (field: MarkField, to: Line, mm: number): Arrow | undefined => {
  const long = Math.hypot(to.end.x - to.start.x, to.end.y - to.start.y);
  const back = { x: (to.start.x - to.end.x) / long, y: (to.start.y - to.end.y) / long };
  let best: { arrow: Arrow; reach: number } | undefined;
  for (let shift = -BEYOND * mm; shift <= BEFORE * mm; shift += field.step) {
    const tip = { x: to.end.x + back.x * shift, y: to.end.y + back.y * shift };
    const left = barbFrom(field, tip, back, 1, mm);
    const right = barbFrom(field, tip, back, -1, mm);
    if (!left || !right) continue;
    const unlike = Math.abs(Math.abs(left.angle) - Math.abs(right.angle)) * (180 / Math.PI);
    const [shorter, longer] = [Math.min(left.long, right.long), Math.max(left.long, right.long)];
    if (unlike > UNLIKE || shorter < longer / 2 || longer > long / 2) continue;
    const reach = shorter - unlike * 0.05 * mm;
    if (best !== undefined && reach <= best.reach) continue;
    const end = ({ angle, long: l }: Barb): Point => {
      const [c, s] = [Math.cos(angle), Math.sin(angle)];
      return { x: tip.x + l * (back.x * c - back.y * s), y: tip.y + l * (back.x * s + back.y * c) };
    };
    best = { arrow: { tip, barbs: [end(left), end(right)] }, reach };
  }
  return best?.arrow;
};
