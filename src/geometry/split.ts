/** Cutting one segment: the parts lie on the whole and share their cut exactly. Cubics are cut by bezier-js. */
import { Bezier } from 'bezier-js';
import { between, point, type Point } from './point.ts';
import { cubic, line, type Cubic, type Segment } from './segment.ts';

const cubicThrough = ([start, startHandle, endHandle, end]: readonly { x: number; y: number }[]): Cubic =>
  cubic(plain(start!), plain(startHandle!), plain(endHandle!), plain(end!));

/** A point of our own: the library hands out its live ones. */
const plain = (p: { x: number; y: number }): Point => point(p.x, p.y);

/** The parts before and after `t` in [0, 1]; at 0 or 1 one of them is a single point. */
export const splitSegment = (segment: Segment, t: number): [Segment, Segment] => {
  const { start, end } = segment;
  if (t <= 0) return [nothingAt(segment, start), segment];
  if (t >= 1) return [segment, nothingAt(segment, end)];
  if (segment.kind === 'line') {
    const at = between(start, end, t);
    return [line(start, at), line(at, end)];
  }
  const { startHandle: h, endHandle: k } = segment;
  const { left, right } = new Bezier(start.x, start.y, h.x, h.y, k.x, k.y, end.x, end.y).split(t);
  return [cubicThrough(left.points), cubicThrough(right.points)];
};

/** Both halves, by plain means: for searches that halve a thousand times and keep no half, where the library's cut is slow. */
export const halveCubic = ({ start, startHandle, endHandle, end }: Cubic): [Cubic, Cubic] => {
  const a = between(start, startHandle, 1 / 2);
  const b = between(startHandle, endHandle, 1 / 2);
  const c = between(endHandle, end, 1 / 2);
  const [d, e] = [between(a, b, 1 / 2), between(b, c, 1 / 2)];
  const at = between(d, e, 1 / 2);
  return [cubic(start, a, d, at), cubic(at, e, c, end)];
};

/** The segment shrunk to one of its ends. */
const nothingAt = (segment: Segment, at: Point): Segment =>
  segment.kind === 'line' ? line(at, at) : cubic(at, at, at, at);

/** The part from `t0` to `t1`, both in [0, 1] and in that order; the segment itself for 0 and 1. */
export const subSegment = (segment: Segment, t0: number, t1: number): Segment => {
  const head = t1 >= 1 ? segment : splitSegment(segment, t1)[0];
  return t0 <= 0 ? head : splitSegment(head, t1 > 0 ? Math.min(1, t0 / t1) : 0)[1];
};
