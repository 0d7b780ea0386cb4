/**
 * A parabola (or a polynomial of another degree up to 3) laid through a short stretch of readings by robust least squares, in a frame of
 * the stretch's own: `u` along it, `v` to the right of that. Tukey's weights with a spread taken from the readings themselves.
 */
import { STILL } from '../tolerance.ts';
import type { Ring } from './ring.ts';
import { solveSymmetric } from './solve-symmetric.ts';

export interface LocalFit {
  /** The frame: its origin and the direction of u. */
  readonly x: number;
  readonly y: number;
  readonly dx: number;
  readonly dy: number;
  /** v = c[0] + c[1] u + c[2] u^2 + ... */
  readonly c: Float64Array;
  /** The inverse of the normal matrix, by rows: times the variance of a reading, the doubt of the coefficients. */
  readonly doubt: Float64Array;
  /** Root mean square of the residuals of the readings that count. */
  readonly spread: number;
  /** Where the stretch begins and ends along u. */
  readonly from: number;
  readonly to: number;
}

const ROUNDS = 3;
/** Tukey's constant (95 % efficient on normal noise) and the share of a normal spread that lies within the median. */
export const TUKEY = 4.685;
export const MEDIAN_TO_SPREAD = 1.4826;

export const medianOf = (values: Float64Array): number => {
  if (values.length === 0) return 0;
  const sorted = values.toSorted();
  return sorted[sorted.length >> 1]!;
};

/** The weight of a residual that is `share` times Tukey's limit. */
export const tukey = (share: number): number => (share * share < 1 ? (1 - share * share) ** 2 : 0);

/** The fit of readings `first` to `end - 1`, with the residual of each written to `residuals`, made robust in so many rounds; undefined where they are too few to say. */
export const fitLocally = (
  ring: Ring,
  first: number,
  end: number,
  degree: number,
  residuals = new Float64Array(end - first),
  rounds = ROUNDS,
): LocalFit | undefined => {
  const n = end - first;
  const terms = degree + 1;
  if (n < 2 * terms) return undefined;
  const half = n >> 1;
  const mean = (from: number, to: number): [number, number] => {
    let [x, y] = [0, 0];
    for (let i = from; i < to; i += 1) {
      x += ring.x[i]!;
      y += ring.y[i]!;
    }
    return [x / (to - from), y / (to - from)];
  };
  const [ax, ay] = mean(first, first + half);
  const [bx, by] = mean(first + half, end);
  const length = Math.hypot(bx - ax, by - ay);
  if (length < STILL * ring.total) return undefined;
  const [dx, dy] = [(bx - ax) / length, (by - ay) / length];
  const [x, y] = [(ax + bx) / 2, (ay + by) / 2];
  const robust = new Float64Array(n).fill(1);
  const u = new Float64Array(n);
  const v = new Float64Array(n);
  for (let i = 0; i < n; i += 1) {
    const [px, py] = [ring.x[first + i]! - x, ring.y[first + i]! - y];
    u[i] = (px * dx + py * dy) / length;
    v[i] = py * dx - px * dy;
  }
  const normal = new Float64Array(terms * terms);
  const c = new Float64Array(terms);
  const powers = new Float64Array(2 * terms - 1);
  const fill = (): void => {
    powers.fill(0);
    c.fill(0);
    for (let i = 0; i < n; i += 1) {
      let power = robust[i]! * ring.weight[first + i]!;
      for (let k = 0; k < powers.length; k += 1) {
        powers[k]! += power;
        if (k < terms) c[k]! += power * v[i]!;
        power *= u[i]!;
      }
    }
    for (let j = 0; j < terms; j += 1) for (let k = 0; k < terms; k += 1) normal[j * terms + k] = powers[j + k]!;
  };
  const absolute = new Float64Array(n);
  let spread = 0;
  for (let round = 0; round < rounds; round += 1) {
    fill();
    if (!solveSymmetric(normal, c, terms)) return undefined;
    for (let i = 0; i < n; i += 1) {
      let value = 0;
      for (let k = degree; k >= 0; k -= 1) value = value * u[i]! + c[k]!;
      residuals[i] = v[i]! - value;
      absolute[i] = Math.abs(residuals[i]!);
    }
    const limit = TUKEY * MEDIAN_TO_SPREAD * medianOf(absolute) + STILL * length;
    let [sum, weights] = [0, 0];
    for (let i = 0; i < n; i += 1) {
      robust[i] = tukey(residuals[i]! / limit);
      const w = robust[i]! * ring.weight[first + i]!;
      sum += w * residuals[i]! * residuals[i]!;
      weights += w;
    }
    spread = Math.sqrt((sum / Math.max(weights, STILL)) * (n / (n - terms)));
  }
  fill();
  if (!solveSymmetric(normal.slice(), c, terms)) return undefined;
  const doubt = new Float64Array(terms * terms);
  for (let k = 0; k < terms; k += 1) {
    const column = new Float64Array(terms);
    column[k] = 1;
    solveSymmetric(normal.slice(), column, terms);
    for (let j = 0; j < terms; j += 1) doubt[j * terms + k] = column[j]! / length ** (j + k);
  }
  for (let k = 0; k < terms; k += 1) c[k]! /= length ** k;
  return { x, y, dx, dy, c, doubt, spread, from: u[0]! * length, to: u[n - 1]! * length };
};
