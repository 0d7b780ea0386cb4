import { LIGHT, type Picture } from '../../src/scan/picture.ts';

const ROUNDS = 50;

/**
 * One level for a whole picture: half the light between the mean lights of what is darker and of what is lighter than it, found by
 * repeating that until it stands (isodata, after Ridler and Calvard, 1978), begun half-way between the darkest and the lightest
 * hundredth. What is darker has a grey below it.
 */
export const globalLevel = ({ grey }: Picture): number => {
  const counts = new Float64Array(256);
  for (const value of grey) counts[value]! += 1;
  const hundredth = grey.length / 100;
  const reached = (order: readonly number[]): number => {
    let sum = 0;
    return order.find((value) => (sum += counts[value]!) >= hundredth)!;
  };
  const rising = [...counts.keys()];
  let light = (LIGHT[reached(rising)]! + LIGHT[reached(rising.toReversed())]!) / 2;
  for (let round = 0; round < ROUNDS; round += 1) {
    const sums = [0, 0];
    const numbers = [0, 0];
    for (const value of rising) {
      const side = LIGHT[value]! < light ? 0 : 1;
      sums[side]! += counts[value]! * LIGHT[value]!;
      numbers[side]! += counts[value]!;
    }
    light = (sums[0]! / numbers[0]! + sums[1]! / numbers[1]!) / 2;
  }
  return LIGHT.findIndex((value) => value >= light);
};
