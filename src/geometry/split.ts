/** Cutting one segment, by de Casteljau's construction: the parts lie on the whole and share their cut exactly. */
import { between } from './point.ts';
import { cubic, line, type Segment } from './segment.ts';

/** The parts before and after `t` in [0, 1]; at 0 or 1 one of them is a single point. */
export const splitSegment = (segment: Segment, t: number): [Segment, Segment] => {
  const { start, end } = segment;
  if (segment.kind === 'line') {
    const at = t === 1 ? end : between(start, end, t);
    return [line(start, at), line(at, end)];
  }
  const a = between(start, segment.startHandle, t);
  const b = between(segment.startHandle, segment.endHandle, t);
  const c = between(segment.endHandle, end, t);
  const ab = between(a, b, t);
  const bc = between(b, c, t);
  const at = t === 0 ? start : t === 1 ? end : between(ab, bc, t);
  return [cubic(start, a, ab, at), cubic(at, bc, c, end)];
};

/** The part from `t0` to `t1`, both in [0, 1] and in that order; the segment itself for 0 and 1. */
export const subSegment = (segment: Segment, t0: number, t1: number): Segment => {
  const head = t1 >= 1 ? segment : splitSegment(segment, t1)[0];
  return t0 <= 0 ? head : splitSegment(head, t1 > 0 ? Math.min(1, t0 / t1) : 0)[1];
};
