import { movePoint, type Point } from '../geometry/point.ts';
import { leftNormal, plus, scaled, unit, vectorTo } from '../geometry/vector.ts';
import type { Ink } from '../ink/ink.ts';

const LENGTH = 5;
const HALF_WIDTH = 1.6;

/** A filled head with its point at `tip`, pointing away from `tail`. */
export const drawArrow = (ink: Ink, tip: Point, tail: Point): void => {
  const back = scaled(unit(vectorTo(tip, tail)), LENGTH);
  const side = scaled(leftNormal(unit(back)), HALF_WIDTH);
  const corners = [tip, movePoint(tip, plus(back, side)), movePoint(tip, plus(back, scaled(side, -1)))];
  ink.fillShape(corners);
};
