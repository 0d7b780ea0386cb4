import { extremaOf } from './box.ts';
import { pointOn } from './evaluate.ts';
import type { Path } from './path.ts';
import type { Point } from './point.ts';
import type { Segment } from './segment.ts';
import { bernsteinAt, rootsOf } from './solve-roots.ts';

const crossed = (a: Point, b: Point): number => a.x * b.y - a.y * b.x;

/** Twice the area swept from the origin along the segment: Green's theorem, in closed form for a cubic. */
const swept = (s: Segment): number => {
  if (s.kind === 'line') return crossed(s.start, s.end);
  const { start: a, startHandle: b, endHandle: c, end: d } = s;
  return (
    (6 * crossed(a, b) +
      3 * crossed(a, c) +
      crossed(a, d) +
      3 * crossed(b, c) +
      3 * crossed(b, d) +
      6 * crossed(c, d)) /
    10
  );
};

/** The area in square millimetres inside a closed path, exact but for rounding; positive when it runs clockwise on paper. */
export const signedArea = (closed: Path): number => {
  const { x, y } = closed.segments[0]!.start;
  const near = (p: Point): Point => ({ x: p.x - x, y: p.y - y });
  let twice = 0;
  for (const s of closed.segments) {
    twice += swept(
      s.kind === 'line'
        ? { kind: 'line', start: near(s.start), end: near(s.end) }
        : {
            kind: 'cubic',
            start: near(s.start),
            startHandle: near(s.startHandle),
            endHandle: near(s.endHandle),
            end: near(s.end),
          },
    );
  }
  return twice / 2;
};

/** The area inside a closed polygon, the first point not repeated; positive when it runs clockwise on paper. */
export const polygonArea = (points: readonly Point[]): number =>
  points.reduce((sum, p, i) => sum + crossed(points.at(i - 1)!, p), 0) / 2;

/** How often the segment passes to the right of `p`: +1 downwards, -1 upwards, on stretches that hold their lower end only. */
const passes = (s: Segment, p: Point): number => {
  const cuts = [0, ...extremaOf(s).y.filter((t) => t > 0 && t < 1), 1];
  let sum = 0;
  for (let i = 1; i < cuts.length; i += 1) {
    const [t0, t1] = [cuts[i - 1]!, cuts[i]!];
    const [y0, y1] = [pointOn(s, t0).y, pointOn(s, t1).y];
    if (y0 <= p.y === y1 <= p.y) continue;
    if (xAt(s, p.y, t0, t1) > p.x) sum += y1 > y0 ? 1 : -1;
  }
  return sum;
};

const xAt = (s: Segment, y: number, t0: number, t1: number): number => {
  if (s.kind === 'line') return s.start.x + ((y - s.start.y) / (s.end.y - s.start.y)) * (s.end.x - s.start.x);
  const heights = [s.start.y - y, s.startHandle.y - y, s.endHandle.y - y, s.end.y - y];
  const inside = rootsOf(heights).find((t) => t >= t0 && t <= t1);
  const nearer = Math.abs(bernsteinAt(heights, t0)) < Math.abs(bernsteinAt(heights, t1)) ? t0 : t1;
  return pointOn(s, inside ?? nearer).x;
};

/** Whether a point lies inside a closed path, by its winding number; on the line itself either answer may come. */
export const isInside = (closed: Path, p: Point): boolean =>
  closed.segments.reduce((sum, s) => sum + passes(s, p), 0) !== 0;
