import { LIGHT, type Picture } from '../picture.ts';

/** A field of light at working size: each value is the mean light of `step` by `step` pixels of the picture. */
export interface Reduced {
  readonly step: number;
  readonly width: number;
  readonly height: number;
  readonly light: Float32Array;
}

/** Working pixels to the millimetre that are aimed at: 150 dpi, at which a thin printed line is still two pixels wide. */
const WORKING = 6;

/** The number of pixels that become one, so that about 6 remain to the millimetre. */
export const workingStep = (pxPerMm: number): number => Math.max(1, Math.round(pxPerMm / WORKING));

/** The picture at working size, in light. Rows and columns left over at the right and at the bottom (fewer than `step`) fall away. */
export const reducePicture = (picture: Picture, step: number): Reduced => {
  const width = Math.max(1, Math.floor(picture.width / step));
  const height = Math.max(1, Math.floor(picture.height / step));
  const light = new Float32Array(width * height);
  const sums = new Int32Array(width);
  const share = 1 / (step * step * WHOLE);
  for (let j = 0; j < height; j += 1) {
    sums.fill(0);
    for (let row = j * step; row < Math.min(picture.height, (j + 1) * step); row += 1) {
      addRow(picture, row, step, sums);
    }
    for (let i = 0; i < width; i += 1) light[j * width + i] = sums[i]! * share;
  }
  return { step, width, height, light };
};

/** Light in whole numbers, quick to add: up to 180 by 180 pixels stay below 2 to the 31st. */
const WHOLE = 1 << 16;
const WHOLE_LIGHT = Int32Array.from(LIGHT, (light) => Math.round(light * WHOLE));

/** Adds the light of one row of the picture to the sums of its working pixels. */
const addRow = ({ grey, width }: Picture, row: number, step: number, sums: Int32Array): void => {
  let at = row * width;
  for (let i = 0; i < sums.length; i += 1) {
    let sum = sums[i]!;
    for (let k = 0; k < step; k += 1) sum += WHOLE_LIGHT[grey[at + k]!]!;
    sums[i] = sum;
    at += step;
  }
};
