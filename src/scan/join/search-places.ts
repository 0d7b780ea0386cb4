/**
 * Where a scan may lie on the others, with no guess to start from: the detail of both is correlated over all shifts at once (by way of
 * the Fourier transform, each overlap measured by the ink in it alone: Padfield, Masked object registration in the Fourier domain,
 * IEEE Transactions on Image Processing 21, 2012), once for each of a fan of turns.
 */
import { compose, rotation, translation, type Matrix } from '../../geometry/matrix.ts';
import { makeGrid, powerOfTwo, transformGrid, type Grid } from './fourier.ts';
import { layMap, type LaidMap, type ScanDetail } from './laid-map.ts';

/** A rigid map from a scan's own millimetres to the sheet's, with how well the detail in the overlap agrees: 1 is perfectly. */
export interface FoundPlace {
  readonly place: Matrix;
  readonly likeness: number;
  /** By how much less alike the overlap is a few millimetres on, along the way on which it matters least. */
  readonly sharpness: number;
}

/**
 * The first of a list, half of them for their likeness alone and half for their sharpness too: where long lines run along the sheet, every shift
 * along them looks alike, and only what crosses them makes one place sharp.
 */
export const foremost = <T extends { readonly likeness: number; readonly sharpness: number }>(
  list: readonly T[],
  count: number,
): T[] => {
  const alike = list.toSorted((a, b) => b.likeness - a.likeness).slice(0, Math.ceil(count / 2));
  const worth = (one: T): number => one.likeness + one.sharpness;
  const others = list.filter((one) => !alike.includes(one)).toSorted((a, b) => worth(b) - worth(a));
  return [...alike, ...others.slice(0, count - alike.length)];
};

/** The four ways along which a place may be loose. */
export const WAYS: readonly (readonly [number, number])[] = [
  [1, 0],
  [0, 1],
  [1, 1],
  [1, -1],
];

/** Pixels to the millimetre: lines fall in the same pixel up to half a step of the turn even 120 mm away. */
const PER_MM = 0.4;

const TURN_STEP = (1.25 * Math.PI) / 180;

/** Two scans, each up to 5 degrees askew, differ by 10 at most. */
const STEPS = 8;

/** How many of the likeliest places are kept of each turn and in all. */
const OF_TURN = 8;
const IN_ALL = 40;

const toGrid = (
  width: number,
  height: number,
  map: LaidMap,
  re: (i: number) => number,
  im: (i: number) => number,
): Grid => {
  const grid = makeGrid(width, height);
  for (let j = 0; j < map.height; j++) {
    for (let i = 0; i < map.width; i++) {
      grid.re[j * width + i] = re(j * map.width + i);
      grid.im[j * width + i] = im(j * map.width + i);
    }
  }
  transformGrid(grid);
  return grid;
};

/** The transform of two real grids at once, parted again: that of the real part and that of the imaginary part. */
const parted = (grid: Grid): [Grid, Grid] => {
  const { width, height, re, im } = grid;
  const real = makeGrid(width, height);
  const imaginary = makeGrid(width, height);
  for (let j = 0; j < height; j++) {
    for (let i = 0; i < width; i++) {
      const at = j * width + i;
      const other = ((height - j) % height) * width + ((width - i) % width);
      real.re[at] = (re[at]! + re[other]!) / 2;
      real.im[at] = (im[at]! - im[other]!) / 2;
      imaginary.re[at] = (im[at]! + im[other]!) / 2;
      imaginary.im[at] = (re[other]! - re[at]!) / 2;
    }
  }
  return [real, imaginary];
};

/** Two correlations of real grids at once, a with b in `re` and c with d in `im`. */
const correlate = (a: Grid, b: Grid, c: Grid, d: Grid): Grid => {
  const grid = makeGrid(a.width, a.height);
  const n = grid.re.length;
  for (let i = 0; i < n; i++) {
    const x = a.re[i]! * b.re[i]! + a.im[i]! * b.im[i]!;
    const y = a.im[i]! * b.re[i]! - a.re[i]! * b.im[i]!;
    const u = c.re[i]! * d.re[i]! + c.im[i]! * d.im[i]!;
    const v = c.im[i]! * d.re[i]! - c.re[i]! * d.im[i]!;
    grid.re[i] = (x - v) / n;
    grid.im[i] = (y + u) / n;
  }
  transformGrid({ ...grid, re: grid.im, im: grid.re });
  return grid;
};

interface Peak {
  readonly shift: number;
  readonly likeness: number;
  readonly sharpness: number;
}

const spectra = (map: LaidMap, width: number, height: number): { detail: Grid; known: Grid; square: Grid } => {
  const [detail, known] = parted(
    toGrid(
      width,
      height,
      map,
      (i) => map.values[i]!,
      (i) => map.known[i]!,
    ),
  );
  const square = toGrid(
    width,
    height,
    map,
    (i) => map.values[i]! ** 2,
    () => 0,
  );
  return { detail, known, square };
};

const inkOf = (map: LaidMap): number => map.values.reduce((sum, value) => sum + value * value, 0);

/**
 * The likeliest places, the most alike and the sharpest.
 * @param least The least width of the overlap in millimetres.
 * @param start How the scan is turned before the fan: 0, or half a turn.
 */
export const searchPlaces = (
  before: readonly ScanDetail[],
  next: ScanDetail,
  least: number,
  start: number,
): FoundPlace[] => {
  const whole = layMap(before, PER_MM);
  const turned = Array.from({ length: 2 * STEPS + 1 }, (_, k) => {
    const turn = rotation(start + (k - STEPS) * TURN_STEP);
    return { turn, map: layMap([{ ...next, toMm: compose(turn, next.toMm) }], PER_MM) };
  });
  const spare = Math.floor(least * PER_MM) - 2;
  const width = powerOfTwo(whole.width + Math.max(...turned.map(({ map }) => map.width)) - spare);
  const height = powerOfTwo(whole.height + Math.max(...turned.map(({ map }) => map.height)) - spare);
  const there = spectra(whole, width, height);
  const inkThere = inkOf(whole);
  const places = turned.flatMap(({ turn, map }) => {
    const here = spectra(map, width, height);
    const alike = correlate(there.detail, here.detail, there.square, here.known);
    const cover = correlate(there.known, here.square, there.known, here.known);
    const smallest = Math.min(map.width, map.height, whole.width, whole.height);
    const area = least * PER_MM * smallest * 0.5;
    const little = 0.02 * Math.min(inkThere, inkOf(map)) + 1e-6;
    const likeness = new Float32Array(width * height);
    for (let i = 0; i < likeness.length; i++) {
      if (cover.im[i]! < area) continue;
      const ink = Math.sqrt(Math.max(0, alike.im[i]!) * Math.max(0, cover.re[i]!));
      likeness[i] = alike.re[i]! / (ink + little);
    }
    return peaksOf(likeness, width, height).map(({ shift, likeness: value, sharpness }): FoundPlace => {
      const sx = shift % width;
      const sy = Math.floor(shift / width);
      // A shift past the middle of the grid is one to the other side.
      const across = (sx > whole.width ? sx - width : sx) / PER_MM;
      const down = (sy > whole.height ? sy - height : sy) / PER_MM;
      const place = compose(translation(whole.left - map.left + across, whole.top - map.top + down), turn);
      return { place, likeness: value, sharpness };
    });
  });
  return foremost(places, IN_ALL);
};

const peaksOf = (likeness: Float32Array, width: number, height: number): Peak[] => {
  const at = (i: number, j: number): number => likeness[((j + height) % height) * width + ((i + width) % width)]!;
  const peaks: Peak[] = [];
  for (let j = 0; j < height; j++) {
    for (let i = 0; i < width; i++) {
      const value = likeness[j * width + i]!;
      if (value < 0.1) continue;
      let highest = true;
      for (let v = -1; v <= 1 && highest; v++)
        for (let u = -1; u <= 1; u++) if (at(i + u, j + v) > value) highest = false;
      if (!highest) continue;
      const drops = WAYS.map(([u, v]) => value - Math.max(at(i + 2 * u, j + 2 * v), at(i - 2 * u, j - 2 * v)));
      peaks.push({ shift: j * width + i, likeness: value, sharpness: Math.min(...drops) });
    }
  }
  return foremost(peaks, OF_TURN);
};
