/**
 * Lines across a strip between two straight sides, from one side to the other: all through the point where the two sides meet, or
 * parallel where they do not. A point that is moved along its line stays on it, so that what was moved is moved back exactly.
 */

import type { Point } from '../../geometry/point.ts';
import { cross, plus, scaled, vectorTo, type Vector } from '../../geometry/vector.ts';

/** One side of the strip: a point of it and its direction, of whatever length stands for one unit of amount. */
export interface Side {
  readonly at: Point;
  readonly along: Vector;
}

/** Which line a point lies on. */
interface Share {
  /** 0 on the front side, 1 on the back side; beyond a side, less than 0 or more than 1. */
  readonly u: number;
  /** The change of `u` for each millimetre of `x` and `y`. */
  readonly gradient: Vector;
}

export interface Fan {
  /** Undefined at and past the point where the sides meet. */
  readonly shareAt: (p: Point) => Share | undefined;
  /** The direction of a line: the mean of the two sides' by its share. */
  readonly along: (u: number) => Vector;
  /** What `along` changes by, for each unit of share. */
  readonly opening: Vector;
}

/**
 * The fan between two sides that both run upwards (`clockwise` 1, the front side to the left) or both downwards (-1).
 * With p and q the distances of a point from the front and the back side (each times the length of that side's direction), its share is
 * p / (p + q): constant along every line through the point where the sides meet, and linear across where they are parallel.
 */
export const fanOfLines = (front: Side, back: Side, clockwise: 1 | -1): Fan => {
  const opening = plus(back.along, scaled(front.along, -1));
  const gradientOf = (v: Vector): Vector => ({ dx: -v.dy * clockwise, dy: v.dx * clockwise });
  const [toBack, toFront] = [gradientOf(front.along), scaled(gradientOf(back.along), -1)];
  return {
    opening,
    along: (u) => plus(front.along, scaled(opening, u)),
    shareAt: (at) => {
      const p = clockwise * cross(front.along, vectorTo(front.at, at));
      const q = -clockwise * cross(back.along, vectorTo(back.at, at));
      const whole = p + q;
      if (whole <= 0) return undefined;
      const gradient = scaled(plus(scaled(toBack, q), scaled(toFront, -p)), 1 / (whole * whole));
      return { u: p / whole, gradient };
    },
  };
};
