/**
 * The exact place of a scan: patches with ink or edges, spread over the overlap, are compared at full resolution; each tells how far the
 * ink lies off across itself, and turn and shift follow by robust least squares. Repeated until it stands still.
 */
import { compose, inverse, rotation, translation, type Matrix } from '../../geometry/matrix.ts';
import type { Point } from '../../geometry/point.ts';
import { transformPoint } from '../../geometry/transform-path.ts';
import { medianOf } from '../quantile-of.ts';
import { comparePatch, type Reading } from './compare-patch.ts';
import type { DetailMap } from './detail-map.ts';
import { cornersOfPart, finenessOf, type Part, type PlacedScan, type ScanToJoin } from './scan-to-join.ts';

export interface SettledPlace {
  readonly place: Matrix;
  /** How far the shared ink stays apart, root mean square and worst, in millimetres. */
  readonly misfit: number;
  readonly worst: number;
  /** By how much the farthest corner of the scan may be off its place, in millimetres (one deviation); infinite if nothing says. */
  readonly doubt: number;
  /** How many patches tell of the shift along the way of which fewest do. */
  readonly told: number;
  /** The share of the patches with ink or edges that look the same in both. */
  readonly share: number;
}

/** Side of a patch: a line with paper on both sides, yet so small that turns do not matter within. Millimetres. */
const PATCH = 2.4;

/** Patches compared at most: more make it no surer. */
const PATCHES = 500;

/** Patches with less spread of light than this show bare paper; those less alike than this show something else. */
const CONTRAST = 0.05;
const ALIKE = 0.8;

/** With less than this share alike after the second round, the place is wrong, and no further round will mend it. */
const HOPELESS = 0.25;

/** What paper and scanner move a line by, whatever the noise of the pixels, and what a maker could not have drawn surer; millimetres. */
const FLOOR = 0.004;

/**
 * What is off by more than this is left out in the first round, and by half as much in each next: the few lines that run across all
 * others must not count as strays before they had their say.
 */
const WIDEST = 1;

/** Where nothing tells of a way, the place stays as it was: as if so many readings said so. */
const STAY = 0.001;

const ROUNDS = 14;
const STILL = 0.0002;

interface Patch {
  readonly middle: Point;
  readonly earlier: PlacedScan;
}

const holds = ({ left, top, right, bottom }: Part, { x, y }: Point, rim: number): boolean =>
  x > left + rim && x < right - rim && y > top + rim && y < bottom - rim;

/** Patches with ink that both scans show whole; if they are many, some spread evenly over all. */
const choosePatches = (
  before: readonly PlacedScan[],
  next: ScanToJoin & { readonly part: Part },
  detail: DetailMap,
  place: Matrix,
): Patch[] => {
  const { step, width, height, values } = detail;
  const fine = finenessOf(next.toMm);
  const cell = Math.max(1, Math.round((PATCH * fine) / step));
  const size = cell * step;
  const toSheet = compose(place, next.toMm);
  const patches: Patch[] = [];
  for (let j = 0; j + cell <= height; j += cell) {
    for (let i = 0; i + cell <= width; i += cell) {
      let [ink, sumX, sumY] = [0, 0, 0];
      for (let v = j; v < j + cell; v++) {
        for (let u = i; u < i + cell; u++) {
          const value = Math.abs(values[v * width + u]!);
          ink += value;
          sumX += value * (u + 0.5);
          sumY += value * (v + 0.5);
        }
      }
      if (ink < 0.02 * cell * cell) continue;
      const middle = { x: (sumX / ink) * step, y: (sumY / ink) * step };
      if (!holds(next.part, middle, size / 2 + 3)) continue;
      for (const earlier of before) {
        const there = transformPoint(transformPoint(middle, toSheet), inverse(earlier.toSheet));
        const rim = 0.75 * size * (finenessOf(earlier.toSheet) / fine) + 4;
        if (holds(earlier.part, there, rim)) patches.push({ middle, earlier });
      }
    }
  }
  if (patches.length <= PATCHES) return patches;
  return Array.from({ length: PATCHES }, (_, k) => patches[Math.floor(((k + 0.5) * patches.length) / PATCHES)]!);
};

/** Least squares for (turn, x, y) about `centre`: the solution, and the inverse of the normal matrix. */
const solve = (
  readings: readonly Reading[],
  weights: readonly number[],
  centre: Point,
  stay: number,
): { turn: number; x: number; y: number; inverse: (i: number, j: number) => number } => {
  const n = Float64Array.of(stay, 0, 0, 0, stay, 0, 0, 0, stay);
  const r = new Float64Array(3);
  readings.forEach(({ at, nx, ny, offset }, k) => {
    const row = [ny * (at.x - centre.x) - nx * (at.y - centre.y), nx, ny];
    for (let i = 0; i < 3; i++) {
      r[i]! += weights[k]! * row[i]! * offset;
      for (let j = 0; j < 3; j++) n[3 * i + j]! += weights[k]! * row[i]! * row[j]!;
    }
  });
  const minor = (i: number, j: number): number => {
    const [a, b] = [(i + 1) % 3, (i + 2) % 3];
    const [c, d] = [(j + 1) % 3, (j + 2) % 3];
    return n[3 * a + c]! * n[3 * b + d]! - n[3 * a + d]! * n[3 * b + c]!;
  };
  const determinant = n[0]! * minor(0, 0) + n[1]! * minor(0, 1) + n[2]! * minor(0, 2);
  const inverseAt = (i: number, j: number): number => minor(j, i) / determinant;
  const solved = [0, 1, 2].map((i) => r[0]! * inverseAt(i, 0) + r[1]! * inverseAt(i, 1) + r[2]! * inverseAt(i, 2));
  return { turn: solved[0]!, x: solved[1]!, y: solved[2]!, inverse: inverseAt };
};

const NOWHERE = { misfit: Infinity, worst: Infinity, doubt: Infinity, told: 0, share: 0 };

/** Settles a place that is right to about half a line's width. Where nothing is shared, `told` and `share` are 0. */
export const settlePlace = (
  before: readonly PlacedScan[],
  next: ScanToJoin & { readonly part: Part },
  detail: DetailMap,
  start: Matrix,
): SettledPlace => {
  const patches = choosePatches(before, next, detail, start);
  const size = PATCH * finenessOf(next.toMm);
  let place = start;
  for (let round = 1; ; round++) {
    const toSheet = compose(place, next.toMm);
    const all = patches.map(({ middle, earlier }) =>
      comparePatch(
        next.picture,
        earlier.picture,
        compose(inverse(earlier.toSheet), toSheet),
        earlier.toSheet,
        middle,
        size,
      ),
    );
    const inked = all.filter(({ contrast }) => contrast > CONTRAST);
    const same = inked.filter(({ alike }) => alike > ALIKE);
    const readings = same.flatMap((patch) => patch.readings).filter(({ noise }) => noise < 0.1);
    const share = same.length / inked.length;
    if (readings.length < 3 || (round > 2 && share < HOPELESS)) return { place, ...NOWHERE };
    const centre = {
      x: readings.reduce((sum, { at }) => sum + at.x, 0) / readings.length,
      y: readings.reduce((sum, { at }) => sum + at.y, 0) / readings.length,
    };
    // Tukey's weights, from what is off by more than nearly all others.
    let answer = solve(
      readings,
      readings.map(() => 1),
      centre,
      STAY,
    );
    const left = ({ at, nx, ny, offset }: Reading): number =>
      offset - (nx * (answer.x - answer.turn * (at.y - centre.y)) + ny * (answer.y + answer.turn * (at.x - centre.x)));
    let weights: number[] = [];
    for (let again = 0; again < 4; again++) {
      const usual = 1.48 * medianOf(readings.map((reading) => Math.abs(left(reading))));
      const limit = Math.max(WIDEST / 2 ** round, 5 * Math.max(FLOOR, usual));
      weights = readings.map((reading) => {
        const off = left(reading) / limit;
        return Math.abs(off) >= 1 ? 0 : (1 - off * off) ** 2 / (1 + (reading.noise / FLOOR) ** 2);
      });
      answer = solve(readings, weights, centre, STAY);
    }
    if (![answer.turn, answer.x, answer.y].every(Number.isFinite)) return { place, ...NOWHERE, told: 0 };
    const about = compose(
      compose(translation(centre.x, centre.y), rotation(answer.turn)),
      translation(-centre.x, -centre.y),
    );
    place = compose(compose(translation(answer.x, answer.y), about), place);
    const reach = Math.max(
      ...cornersOfPart(next.part).map((p) =>
        Math.hypot(...difference(transformPoint(p, compose(place, next.toMm)), centre)),
      ),
    );
    const moved = Math.hypot(answer.x, answer.y) + Math.abs(answer.turn) * reach;
    if ((moved > STILL || round < 6) && round < ROUNDS) continue;
    const firsts = readings.filter((reading, k) => reading.first && weights[k]! > 0);
    const offs = firsts.map((reading) => Math.abs(left(reading)));
    const misfit = Math.hypot(...offs) / Math.sqrt(Math.max(1, offs.length));
    // How sure: the normal matrix of the readings alone, each counted as one patch.
    const counted = solve(
      readings,
      weights.map((weight) => Math.sign(weight)),
      centre,
      0,
    ).inverse;
    const mean = (counted(1, 1) + counted(2, 2)) / 2;
    const shift = mean + Math.hypot((counted(1, 1) - counted(2, 2)) / 2, counted(1, 2));
    const deviation = Math.max(misfit, FLOOR);
    return {
      place,
      misfit,
      worst: Math.max(0, ...offs),
      doubt: deviation * Math.sqrt(shift + counted(0, 0) * reach * reach),
      told: shift > 0 ? 1 / shift : 0,
      share,
    };
  }
};

const difference = (a: Point, b: Point): [number, number] => [a.x - b.x, a.y - b.y];
