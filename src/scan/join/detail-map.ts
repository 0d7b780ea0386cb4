import { LIGHT, type Picture } from '../picture.ts';

/**
 * What stands out from its surroundings: light less the mean light some millimetres round, in parts of the picture's brightest, with
 * what may be noise or unevenness set to nothing. Dark is negative. Pixel (i, j) covers `step` by `step` pixels of the picture.
 */
export interface DetailMap {
  readonly step: number;
  readonly width: number;
  readonly height: number;
  readonly values: Float32Array;
}

/** Mean light in blocks of `step` by `step` pixels; what is left over at the right and below is left out. */
export const reduceLight = ({ width, height, grey }: Picture, step: number): DetailMap => {
  const columns = Math.floor(width / step);
  const rows = Math.floor(height / step);
  const values = new Float32Array(columns * rows);
  const light = Float32Array.from(LIGHT, (value) => value / (step * step));
  for (let y = 0; y < rows * step; y++) {
    const target = Math.floor(y / step) * columns;
    let at = y * width;
    for (let i = 0; i < columns; i++) {
      let sum = 0;
      for (let k = 0; k < step; k++) sum += light[grey[at++]!]!;
      values[target + i]! += sum;
    }
  }
  return { step, width: columns, height: rows, values };
};

/** Means over `size` by `size` blocks of a map. */
export const coarser = (map: DetailMap, size: number): DetailMap => {
  const width = Math.max(1, Math.floor(map.width / size));
  const height = Math.max(1, Math.floor(map.height / size));
  const values = new Float32Array(width * height);
  for (let y = 0; y < Math.min(map.height, height * size); y++) {
    for (let x = 0; x < Math.min(map.width, width * size); x++) {
      values[Math.floor(y / size) * width + Math.floor(x / size)]! += map.values[y * map.width + x]! / (size * size);
    }
  }
  return { step: map.step * size, width, height, values };
};

/** Means over (2 radius + 1) pixels along lines of a map, fewer at the ends. */
const meansAlong = (
  values: Float32Array,
  count: number,
  next: number,
  n: number,
  step: number,
  radius: number,
): Float32Array => {
  const means = new Float32Array(values.length);
  for (let line = 0; line < count; line++) {
    const start = line * next;
    let sum = 0;
    for (let i = 0; i < Math.min(radius, n); i++) sum += values[start + i * step]!;
    for (let i = 0; i < n; i++) {
      if (i + radius < n) sum += values[start + (i + radius) * step]!;
      if (i - radius > 0) sum -= values[start + (i - radius - 1) * step]!;
      means[start + i * step] = sum / (Math.min(n - 1, i + radius) - Math.max(0, i - radius) + 1);
    }
  }
  return means;
};

/** Light that only a fiftieth of a map exceeds: of a sample, since sorting it all would take longer than all the rest. */
export const brightestOf = ({ values }: DetailMap): number => {
  const every = Math.max(1, Math.floor(values.length / 5000));
  const sample = Float32Array.from(
    { length: Math.ceil(values.length / every) },
    (_, i) => values[i * every]!,
  ).toSorted();
  return sample[Math.floor(sample.length * 0.98)] || 1;
};

/** The share of the brightest light up to which a difference may be noise, and above which one more says no more. */
const NOISE = 0.03;
const ENOUGH = 0.6;

/** The detail in a map of light, against the mean within `radius` of its pixels. */
export const detailMap = (light: DetailMap, radius: number): DetailMap => {
  const { width, height } = light;
  const rows = meansAlong(light.values, height, width, width, 1, radius);
  const means = meansAlong(rows, width, 1, height, width, radius);
  const brightest = brightestOf(light);
  const values = light.values.map((value, i) => {
    const difference = (value - means[i]!) / brightest;
    const size = Math.min(ENOUGH, Math.abs(difference) - NOISE);
    return size <= 0 ? 0 : Math.sign(difference) * size;
  });
  return { ...light, values };
};
