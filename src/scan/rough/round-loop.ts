import type { Point } from '../../geometry/point.ts';

/** Rounds of evening out the steps between pixels: each blurs by 0.7 of a pixel, together by a fifth of a millimetre. */
const ROUNDS = 3;

/** Every so many middles of pixel sides become one point. */
const THINNED = 2;

/** Twice the area a closed row of places encloses: above 0 when it runs clockwise on the page. */
const doubleArea = (places: ArrayLike<number>): number => {
  let sum = 0;
  for (let k = 0, before = places.length - 2; k < places.length; before = k, k += 2) {
    sum += places[before]! * places[k + 1]! - places[k]! * places[before + 1]!;
  }
  return sum;
};

/** A closed row of pixel corners, x and y in turn, as an evened polygon in places of the picture, clockwise on the page. */
export const roundLoop = (loop: ArrayLike<number>, step: number): Point[] => {
  const count = loop.length / 2;
  let x = Float64Array.from({ length: count }, (_, k) => (loop[2 * k]! + loop[(2 * k + 2) % loop.length]!) / 2);
  let y = Float64Array.from({ length: count }, (_, k) => (loop[2 * k + 1]! + loop[(2 * k + 3) % loop.length]!) / 2);
  for (let round = 0; round < ROUNDS; round += 1) [x, y] = [evened(x), evened(y)];
  const points = Array.from({ length: Math.floor(count / THINNED) }, (_, k) => ({
    x: x[k * THINNED]! * step,
    y: y[k * THINNED]! * step,
  }));
  return doubleArea(loop) >= 0 ? points : points.toReversed();
};

const evened = (values: Float64Array): Float64Array<ArrayBuffer> => {
  const result = new Float64Array(values.length);
  for (let k = 0, before = values.length - 1; k < values.length; before = k, k += 1) {
    const after = k + 1 === values.length ? 0 : k + 1;
    result[k] = (values[before]! + 2 * values[k]! + values[after]!) / 4;
  }
  return result;
};
