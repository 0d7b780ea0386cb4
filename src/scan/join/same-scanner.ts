import { compose, rotation, type Matrix } from '../../geometry/matrix.ts';

/**
 * What a scan's map to millimetres says of the scanner alone: scale along the rows and down the columns and shear, with the rows lying
 * along x, no turn and no shift. It holds for every scan from the same scanner at the same setting, however the paper lay. A map that
 * mirrors stays mirrored.
 */
export const sameScanner = (toMm: Matrix): Matrix => ({
  ...compose(rotation(-Math.atan2(toMm.b, toMm.a)), { ...toMm, e: 0, f: 0 }),
  b: 0,
});
