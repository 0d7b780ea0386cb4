/**
 * The discrete Fourier transform of a grid whose sides are powers of two, by Cooley and Tukey's halving. Real and imaginary parts lie
 * in two arrays, row after row, and are changed in place.
 */
export interface Grid {
  readonly width: number;
  readonly height: number;
  readonly re: Float64Array;
  readonly im: Float64Array;
}

export const makeGrid = (width: number, height: number): Grid => ({
  width,
  height,
  re: new Float64Array(width * height),
  im: new Float64Array(width * height),
});

/** The least power of two that is not below a number. */
export const powerOfTwo = (atLeast: number): number => 2 ** Math.ceil(Math.log2(Math.max(1, atLeast)));

interface Waves {
  readonly cos: Float64Array;
  readonly sin: Float64Array;
  /** Where each number goes before the halves are put together. */
  readonly place: Uint32Array;
}

const wavesOf = (n: number): Waves => {
  const bits = Math.round(Math.log2(n));
  const place = new Uint32Array(n);
  for (let i = 0; i < n; i++)
    for (let bit = 0; bit < bits; bit++) if (i & (1 << bit)) place[i]! |= 1 << (bits - 1 - bit);
  const half = Array.from({ length: n / 2 }, (_, k) => (-2 * Math.PI * k) / n);
  return { cos: Float64Array.from(half, Math.cos), sin: Float64Array.from(half, Math.sin), place };
};

const transformLine = (re: Float64Array, im: Float64Array, n: number, { cos, sin }: Waves): void => {
  for (let size = 2; size <= n; size *= 2) {
    const half = size / 2;
    const stride = n / size;
    for (let start = 0; start < n; start += size) {
      for (let k = 0, w = 0, i = start; k < half; k++, w += stride, i++) {
        const j = i + half;
        const x = re[j]! * cos[w]! - im[j]! * sin[w]!;
        const y = re[j]! * sin[w]! + im[j]! * cos[w]!;
        re[j] = re[i]! - x;
        im[j] = im[i]! - y;
        re[i]! += x;
        im[i]! += y;
      }
    }
  }
};

/** Transforms a grid. Its inverse: exchange `re` and `im` before and after, and divide by the number of places. */
export const transformGrid = ({ width, height, re, im }: Grid): void => {
  const along = (count: number, n: number, next: number, step: number): void => {
    const waves = wavesOf(n);
    const lineRe = new Float64Array(n);
    const lineIm = new Float64Array(n);
    for (let line = 0; line < count; line++) {
      const start = line * next;
      for (let i = 0, at = start; i < n; i++, at += step) {
        lineRe[waves.place[i]!] = re[at]!;
        lineIm[waves.place[i]!] = im[at]!;
      }
      transformLine(lineRe, lineIm, n, waves);
      for (let i = 0, at = start; i < n; i++, at += step) {
        re[at] = lineRe[i]!;
        im[at] = lineIm[i]!;
      }
    }
  };
  along(height, width, width, 1);
  along(width, height, 1, width);
};
