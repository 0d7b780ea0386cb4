import { compose, inverse, rotation, translation, type Matrix } from '../../geometry/matrix.ts';
import type { Point } from '../../geometry/point.ts';
import { transformPoint } from '../../geometry/transform-path.ts';
import { detailAt, type ScanDetail } from './laid-map.ts';
import { cornersOfPart } from './scan-to-join.ts';

/** How alike two scans are where they overlap. */
export interface Likeness {
  /** The correlation of their detail: 1 is perfectly alike, 0 not at all. */
  readonly likeness: number;
  /** The length of the shared lines or edges in millimetres, roughly. */
  readonly ink: number;
  /** The middle of the overlap, on the sheet. */
  readonly middle: Point;
  /** How far from it the overlap's places lie, root mean square, in millimetres. */
  readonly reach: number;
}

/** More pixels of an overlap than this are not looked at: every second or third will do. */
const PIXELS = 4_000;

/** How alike the detail of a scan laid at `place` is to that of those before it. `every` leaves out pixels where there are many. */
export const likenessAt = (
  before: readonly ScanDetail[],
  next: ScanDetail,
  place: Matrix,
  every = 1,
): Likeness & { pixels: number } => {
  const toSheet = compose(place, next.toMm);
  const { step, width, height, values } = next.map;
  let [both, here, there, ink, pixels, sumX, sumY, squares] = [0, 0, 0, 0, 0, 0, 0, 0];
  for (const { map, toMm, part } of before) {
    const over = compose(inverse(toMm), toSheet);
    const { left, top, right, bottom } = part;
    // Only the rows and columns that the earlier scan's part can reach.
    const reached = cornersOfPart(part).map((p) => transformPoint(p, inverse(over)));
    const low = (all: readonly number[], least: number): number => Math.ceil(Math.max(least, Math.min(...all)) / step);
    const high = (all: readonly number[], most: number): number => Math.floor(Math.min(most, Math.max(...all)) / step);
    const xs = reached.map(({ x }) => x);
    const ys = reached.map(({ y }) => y);
    const [fromX, toX] = [low(xs, next.part.left), Math.min(width, high(xs, next.part.right))];
    const [fromY, toY] = [low(ys, next.part.top), Math.min(height, high(ys, next.part.bottom))];
    for (let j = fromY; j < toY; j += every) {
      for (let i = fromX; i < toX; i += every) {
        const x = over.a * (i + 0.5) * step + over.c * (j + 0.5) * step + over.e;
        const y = over.b * (i + 0.5) * step + over.d * (j + 0.5) * step + over.f;
        if (x < left || x > right || y < top || y > bottom) continue;
        const a = values[j * width + i]!;
        const b = detailAt(map, x, y);
        both += a * b;
        here += a * a;
        there += b * b;
        if (a !== 0) ink++;
        pixels++;
        sumX += i + 0.5;
        sumY += j + 0.5;
        squares += (i + 0.5) ** 2 + (j + 0.5) ** 2;
      }
    }
  }
  const size = step * Math.hypot(toSheet.a, toSheet.b);
  const middle = { x: (sumX / pixels) * step, y: (sumY / pixels) * step };
  return {
    likeness: here > 0 && there > 0 ? both / Math.sqrt(here * there) : 0,
    // A line or an edge shows in a band about 2 mm wide at the sizes used here.
    ink: (ink * every * every * size * size) / 2,
    middle: transformPoint(middle, toSheet),
    reach: size * Math.sqrt(Math.max(0, squares / pixels - (sumX / pixels) ** 2 - (sumY / pixels) ** 2)),
    pixels: pixels * every * every,
  };
};

/** Moves a place uphill to where the overlap is most alike, by steps that are halved from `from` to `to` millimetres. */
export const climbPlace = (
  before: readonly ScanDetail[],
  next: ScanDetail,
  start: Matrix,
  from: number,
  to: number,
): { place: Matrix; likeness: number } => {
  const { pixels, middle, reach } = likenessAt(before, next, start, 3);
  if (!(pixels > 0)) return { place: start, likeness: 0 };
  const every = Math.max(1, Math.round(Math.sqrt(pixels / PIXELS)));
  const about = (turn: number): Matrix =>
    compose(compose(translation(middle.x, middle.y), rotation(turn)), translation(-middle.x, -middle.y));
  let place = start;
  let best = likenessAt(before, next, place, every).likeness;
  for (let step = from; step >= to; step /= 2) {
    const moves = [1, -1].flatMap((sign) => [
      translation(sign * step, 0),
      translation(0, sign * step),
      about((sign * step) / Math.max(8, reach)),
    ]);
    for (let round = 0; round < 6; round++) {
      const tried = moves.map((move) => {
        const moved = compose(move, place);
        return { moved, value: likenessAt(before, next, moved, every).likeness };
      });
      const top = tried.reduce((a, b) => (b.value > a.value ? b : a));
      if (top.value <= best) break;
      best = top.value;
      place = top.moved;
    }
  }
  return { place, likeness: best };
};
