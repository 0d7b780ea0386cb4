import { pointOn } from './evaluate.ts';
import type { Path } from './path.ts';
import type { Point } from './point.ts';
import type { Segment } from './segment.ts';
import { rootsOf } from './solve-roots.ts';

/** An upright rectangle, in millimetres. */
export interface Box {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** The smallest box that holds all of them; of none, an empty box (minimum above maximum). */
export const joinBoxes = (boxes: readonly Box[]): Box => {
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const box of boxes) {
    minX = Math.min(minX, box.minX);
    minY = Math.min(minY, box.minY);
    maxX = Math.max(maxX, box.maxX);
    maxY = Math.max(maxY, box.maxY);
  }
  return { minX, minY, maxX, maxY };
};

/** The smallest box that holds all points; of none, an empty box. */
export const pointsBox = (points: readonly Point[]): Box => {
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const { x, y } of points) {
    if (x < minX) minX = x;
    if (x > maxX) maxX = x;
    if (y < minY) minY = y;
    if (y > maxY) maxY = y;
  }
  return { minX, minY, maxX, maxY };
};

/** Whether they share a point; boxes that only touch do. `margin` widens one of them all round. */
export const boxesMeet = (a: Box, b: Box, margin = 0): boolean =>
  a.minX <= b.maxX + margin && b.minX <= a.maxX + margin && a.minY <= b.maxY + margin && b.minY <= a.maxY + margin;

/** A box round the control points: holds the segment, not always tightly, at next to no cost. */
export const looseBox = (s: Segment): Box => {
  const h = s.kind === 'line' ? s.start : s.startHandle;
  const k = s.kind === 'line' ? s.end : s.endHandle;
  return {
    minX: Math.min(s.start.x, h.x, k.x, s.end.x),
    minY: Math.min(s.start.y, h.y, k.y, s.end.y),
    maxX: Math.max(s.start.x, h.x, k.x, s.end.x),
    maxY: Math.max(s.start.y, h.y, k.y, s.end.y),
  };
};

/** Where the segment turns back, from left and from up: the inner roots of its derivative. */
export const extremaOf = (s: Segment): { readonly x: number[]; readonly y: number[] } => {
  if (s.kind === 'line') return { x: [], y: [] };
  const { start: a, startHandle: b, endHandle: c, end: d } = s;
  return { x: rootsOf([b.x - a.x, c.x - b.x, d.x - c.x]), y: rootsOf([b.y - a.y, c.y - b.y, d.y - c.y]) };
};

const segmentBox = (s: Segment): Box => {
  if (s.kind === 'line') return looseBox(s);
  const { x, y } = extremaOf(s);
  const points = [s.start, s.end, ...x.map((t) => pointOn(s, t)), ...y.map((t) => pointOn(s, t))];
  return joinBoxes(points.map((p) => ({ minX: p.x, minY: p.y, maxX: p.x, maxY: p.y })));
};

/** The smallest upright box round the curve itself, not round its handles. */
export const pathBox = (path: Path): Box => joinBoxes(path.segments.map(segmentBox));
