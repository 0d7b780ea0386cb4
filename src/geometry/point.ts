import type { Vector } from './vector.ts';

/** A place in the plane: millimetres, y downwards. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

export const point = (x: number, y: number): Point => ({ x, y });

/** By a plain root: `Math.hypot` takes ten times as long, for sizes far beyond anything on paper. */
export const distance = (a: Point, b: Point): number => {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  return Math.sqrt(dx * dx + dy * dy);
};

export const samePoint = (a: Point, b: Point): boolean => a.x === b.x && a.y === b.y;

export const movePoint = (p: Point, v: Vector): Point => ({ x: p.x + v.dx, y: p.y + v.dy });

/** The point at fraction `t` of the way from `a` to `b`; `a` at 0, `b` at 1. */
export const between = (a: Point, b: Point, t: number): Point => ({
  x: a.x + (b.x - a.x) * t,
  y: a.y + (b.y - a.y) * t,
});
