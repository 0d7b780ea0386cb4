import { fitLocally, medianOf } from './local-fit.ts';
import type { Ring } from './ring.ts';

export interface Noise {
  /** Root mean square of one reading across the outline. */
  readonly sigma: number;
  /** By how much the variance of a mean of many readings is larger than if they were independent; at least 1. */
  readonly correlation: number;
}

const WINDOW_MM = 8;
const FEWEST_PX = 90;
const DEGREE = 3;
/** How many pixels apart two readings may still say the same: JPEG works in blocks of 8. */
const LAGS_PX = 24;
/** Distances in pixels over which the likeness of neighbours may fall to 1/e. */
const LENGTHS_PX = [1, 2, 3, 4, 6, 8, 11, 15];
const MOST_CORRELATED = 25;

/**
 * The noise of the readings, from what is left of them after a cubic through every 8 mm: their spread, and how far neighbours go
 * together (see `correlationOf`). Windows with a
 * corner or a tick in them are left out as the worst ones.
 */
export const measureNoise = (ring: Ring, pxPerMm: number, least: number): Noise => {
  const size = Math.round(Math.max(WINDOW_MM * pxPerMm, FEWEST_PX) / ring.spacing);
  const windows: { residuals: Float64Array; spread: number }[] = [];
  for (let first = ring.count; first + size <= 2 * ring.count; first += size) {
    const residuals = new Float64Array(size);
    const fit = fitLocally(ring, first, first + size, DEGREE, residuals);
    if (fit !== undefined) windows.push({ residuals, spread: fit.spread });
  }
  if (windows.length === 0) return { sigma: least, correlation: 1 };
  const typical = medianOf(Float64Array.from(windows, (w) => w.spread));
  const good = windows.filter((w) => w.spread <= 1.4 * typical);
  const lags = Math.min(size >> 2, Math.max(1, Math.round(LAGS_PX / ring.spacing)));
  const together = new Float64Array(lags + 1);
  let squares = 0;
  for (const { residuals, spread } of good) {
    squares += spread * spread;
    const limit = 3 * spread;
    for (let lag = 0; lag <= lags; lag += 1) {
      let sum = 0;
      for (let i = lag; i < size; i += 1) {
        const [a, b] = [residuals[i]!, residuals[i - lag]!];
        if (Math.abs(a) < limit && Math.abs(b) < limit) sum += a * b;
      }
      together[lag]! += sum / size;
    }
  }
  const sigma = Math.max(least, Math.sqrt(squares / good.length));
  return { sigma, correlation: correlationOf(together, (DEGREE + 1) / size, ring.spacing) };
};

/**
 * White noise plus noise whose likeness falls by `rho` from reading to reading, fitted to the autocovariances: of all rho tried the one
 * that leaves least. A fit of p terms to n readings lowers each autocovariance by p / n of the long-run variance, which is put into
 * what is fitted.
 */
const correlationOf = (together: Float64Array, lost: number, spacing: number): number => {
  const variance = together[0]!;
  if (!(variance > 0)) return 1;
  let [best, least] = [1, Infinity];
  for (const length of LENGTHS_PX) {
    const rho = Math.exp(-spacing / length);
    const tail = (2 * rho) / (1 - rho);
    // share of the variance that is correlated, from together[k] / variance = share (rho^k - lost tail) - lost
    let [up, down] = [0, 0];
    for (let lag = 1; lag < together.length; lag += 1) {
      const shape = rho ** lag - lost * tail;
      up += shape * (together[lag]! / variance + lost);
      down += shape * shape;
    }
    const share = Math.min(1, Math.max(0, up / down));
    let left = 0;
    for (let lag = 1; lag < together.length; lag += 1) {
      left += (together[lag]! / variance + lost - share * (rho ** lag - lost * tail)) ** 2;
    }
    if (left < least) [best, least] = [1 + share * tail, left];
  }
  return Math.min(MOST_CORRELATED, best);
};
