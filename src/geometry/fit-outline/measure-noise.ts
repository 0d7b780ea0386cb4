import { fitLocally, medianOf } from './local-fit.ts';
import type { Ring } from './ring.ts';

export interface Noise {
  /** Root mean square of one reading across the outline. */
  readonly sigma: number;
  /** By how much the variance of a mean of many readings is larger than if they were independent; at least 1. */
  readonly correlation: number;
}

const WINDOW_MM = 8;
const DEGREE = 3;
/** How many pixels apart two readings may still say the same: JPEG works in blocks of 8. */
const LAGS_PX = 10;
const MOST_CORRELATED = 16;

/**
 * The noise of the readings, from what is left of them after a cubic through every 8 mm: their spread, and how far neighbours go
 * together (autocovariances under a triangular window, put right for what a fit of four terms takes out of them). Windows with a
 * corner or a tick in them are left out as the worst ones.
 */
export const measureNoise = (ring: Ring, pxPerMm: number, least: number): Noise => {
  const size = Math.max(24, Math.round((WINDOW_MM * pxPerMm) / ring.spacing));
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
  let [ratio, lost] = [1, (DEGREE + 1) / size];
  for (let lag = 1; lag <= lags; lag += 1) {
    const share = 2 * (1 - lag / (lags + 1));
    ratio += (share * together[lag]!) / Math.max(together[0]!, Number.MIN_VALUE);
    lost += (share * (DEGREE + 1)) / size;
  }
  return { sigma, correlation: Math.min(MOST_CORRELATED, Math.max(1, ratio / (1 - Math.min(lost, 0.8)))) };
};
