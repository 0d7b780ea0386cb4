import type { Band } from './cover.ts';
import type { Truth } from './lay-out.ts';
import { greyOf } from './light-of.ts';
import { randomFrom } from './random.ts';
import type { ScanSpec } from './scan-spec.ts';

/** Weights of a bell of the given spread (pixels), symmetric, sum 1; what is cut off weighs less than 1e-5. */
export const kernelOf = (spread: number): Float64Array => {
  const reach = spread === 0 ? 0 : Math.ceil(4.5 * spread);
  const bell = Float64Array.from({ length: 2 * reach + 1 }, (_, i) =>
    spread === 0 ? 1 : Math.exp(-((i - reach) ** 2) / (2 * spread * spread)),
  );
  const sum = bell.reduce((a, b) => a + b, 0);
  return bell.map((w) => w / sum);
};

const CODES = 1 << 14;
/** Grey values of light from 0 to 1 in equal steps, and one more; straight in between they are within 0.01 of the curve. */
const CODE = Float32Array.from({ length: CODES + 2 }, (_, i) => greyOf(i / CODES));

const CHANCES = 1 << 16;
let chances: Float32Array | undefined;
const normalTable = (): Float32Array => {
  const random = randomFrom(20);
  chances ??= Float32Array.from({ length: CHANCES }, () => random.normal());
  return chances;
};

/** Along the rows, from `light` to `out`; beyond the ends the outermost pixel goes on. */
const blurRows = (light: Float32Array, out: Float32Array, width: number, rows: number, kernel: Float64Array): void => {
  const reach = (kernel.length - 1) / 2;
  const padded = new Float32Array(width + 2 * reach);
  for (let row = 0; row < rows; row += 1) {
    const base = row * width;
    padded.fill(light[base]!, 0, reach);
    padded.set(light.subarray(base, base + width), reach);
    padded.fill(light[base + width - 1]!, reach + width);
    const middle = kernel[reach]!;
    for (let x = 0; x < width; x += 1) out[base + x] = middle * padded[x + reach]!;
    for (let k = 1; k <= reach; k += 1) {
      const weight = kernel[reach + k]!;
      for (let x = 0; x < width; x += 1) out[base + x]! += weight * (padded[x + reach - k]! + padded[x + reach + k]!);
    }
  }
};

/** Blur, lamp, curve, noise and rounding of a band whose outermost rows only feed the blur, into the picture's bytes. */
export const developBand = (
  spec: ScanSpec,
  { width: w, height: h }: Truth,
  band: Band,
  light: Float32Array,
  room: Float32Array,
  kernel: Float64Array,
  grey: Uint8Array,
): void => {
  const { width } = band;
  const reach = (kernel.length - 1) / 2;
  blurRows(light, room, width, band.height, kernel);
  const { slope = 0, toward = 30, vignette = 0 } = spec.lamp ?? {};
  const [cos, sin] = [Math.cos((toward * Math.PI) / 180), Math.sin((toward * Math.PI) / 180)];
  const across = Float32Array.from({ length: width }, (_, x) => {
    const u = (x + 0.5) / w - 0.5;
    return 1 - slope * (0.5 + u * cos * 0.7) - vignette * 2 * u * u;
  });
  const noise = spec.noise ?? 0;
  const table = normalTable();
  const line = new Float32Array(width);
  for (let row = reach; row < band.height - reach; row += 1) {
    const y = band.top + row;
    const v = (y + 0.5) / h - 0.5;
    const down = -slope * v * sin * 0.7 - vignette * 2 * v * v;
    const middle = kernel[reach]!;
    for (let x = 0; x < width; x += 1) line[x] = middle * room[row * width + x]!;
    for (let k = 1; k <= reach; k += 1) {
      const weight = kernel[reach + k]!;
      const above = (row - k) * width;
      const below = (row + k) * width;
      for (let x = 0; x < width; x += 1) line[x]! += weight * (room[above + x]! + room[below + x]!);
    }
    let state = randomFrom((spec.scanSeed ?? spec.seed ?? 1) * 100_003 + y).below(2 ** 32) >>> 0;
    const out = y * width;
    for (let x = 0; x < width; x += 1) {
      let l = line[x]! * (across[x]! + down);
      l = (l < 0 ? 0 : l > 1 ? 1 : l) * CODES;
      const i = l | 0;
      let g = CODE[i]! + (CODE[i + 1]! - CODE[i]!) * (l - i) + 0.5;
      if (noise > 0) {
        state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
        g += noise * table[state >>> 16]!;
      }
      grey[out + x] = g < 0 ? 0 : g > 255 ? 255 : g;
    }
  }
};
