/**
 * How far each reading along an outline is to be believed. Another line that meets or crosses the outline, a tick or a pencil stroke makes
 * it broader; ink that reaches a paper's edge takes from its contrast; the sides of a cut make it jump. Such readings count for nothing,
 * and neither do those so near that their profiles still touch what lies there. A faded line is as true as a strong one, but noisier: it
 * counts for less.
 */
import type { Reading } from '../../geometry/fit-outline.ts';
import type { EdgeReading } from './edge-reading.ts';
import { medianOf, quantileOf } from '../quantile-of.ts';
import { localMedian } from './local-median.ts';
import type { Stations } from './stations.ts';

/**
 * A line whose width, or an edge whose contrast, differs from what is usual round there by more than so many times its own spread is not
 * the outline alone; shares of the usual that always pass, and that never do.
 */
const SPREADS = 5;
const PASSES = 0.07;
const NEVER_PASSES = 0.35;

/**
 * Of normal noise, nine in ten are off by less than 1.645 of its spread. What one in ten does is no noise on a clean picture; where each
 * pixel is black or white, it is.
 */
const MOST_OFF = 0.9;
const SPREADS_OFF = 1.645;

/** Less than this share of the usual contrast is no reading. */
const FADED = 0.2;

/** Profiles this near a place that does not count still touch what lies there: millimetres, and pixels on top. */
const TOUCHED = 0.1;
const TOUCHED_PIXELS = 2.5;

/** Readings this far apart are compared for a jump, in millimetres. */
const JUMP_OVER = 0.2;

export interface Settled {
  readonly readings: Reading[];
  /** Pixels of outline, corners apart, where nothing could be believed. */
  readonly bridged: number;
  /** The usual width of the line, in pixels; of a paper's edge undefined. */
  readonly lineWidth: number | undefined;
}

/** 1 where a value is not as usual for its neighbourhood. */
const unusual = (values: Float64Array): Uint8Array => {
  const usual = localMedian(values);
  const off = values.map((value, k) => Math.abs(value - usual[k]!) / usual[k]!);
  const spread = quantileOf(off, MOST_OFF) / SPREADS_OFF;
  const most = Math.min(NEVER_PASSES, Math.max(PASSES, SPREADS * spread));
  return Uint8Array.from(off, (share) => (share > most ? 1 : 0));
};

/** The place of each station as far as known: between readings that count, on the straight line from one to the next. */
const placesOf = (
  { count, x, y, nx, ny }: Stations,
  taken: readonly (EdgeReading | undefined)[],
  weights: Float64Array,
): Reading[] => {
  const known = [...weights.keys()].filter((k) => weights[k]! > 0);
  const offsetAt = (k: number): number => taken[k]!.offset;
  let next = 0;
  return Array.from({ length: count }, (_, k) => {
    while (next < known.length && known[next]! < k) next++;
    let offset = 0;
    if (known.length > 0) {
      const after = known[next % known.length]!;
      const before = known.at(next - 1)!;
      const [toAfter, toBefore] = [(after - k + count) % count, (k - before + count) % count];
      const share = toAfter === 0 ? 1 : toBefore / (toAfter + toBefore);
      offset = offsetAt(before) * (1 - share) + offsetAt(after) * share;
    }
    return { at: { x: x[k]! + offset * nx[k]!, y: y[k]! + offset * ny[k]! }, weight: weights[k]! };
  });
};

/**
 * Readings in order of their stations, undefined where none was taken. `steepest` is how fast the outline may leave the line of stations,
 * as the tangent of an angle.
 */
export const settleReadings = (
  stations: Stations,
  taken: readonly (EdgeReading | undefined)[],
  pxPerMm: number,
  steepest: number,
): Settled => {
  const { count, spacing, blunt } = stations;
  const read = taken.filter((reading) => reading !== undefined);
  if (read.length === 0) return { readings: [], bridged: count * spacing, lineWidth: undefined };
  const contrast = medianOf(read.map((reading) => reading.contrast));
  const isLine = read[0]!.width !== undefined;
  const widths = Float64Array.from(taken, (reading) => reading?.width ?? NaN);
  const lineWidth = isLine ? medianOf(widths) : undefined;
  const strange = unusual(isLine ? widths : Float64Array.from(taken, (reading) => reading?.contrast ?? NaN));

  const over = Math.max(2, Math.round((JUMP_OVER * pxPerMm) / spacing));
  const isClear = (reading: EdgeReading | undefined, k: number): boolean => {
    if (reading === undefined || reading.contrast < FADED * contrast) return false;
    if (strange[k] === 1) return false;
    return [k - over, k + over].every((n) => {
      const other = taken[(n + count) % count];
      return other === undefined || Math.abs(other.offset - reading.offset) <= steepest * over * spacing;
    });
  };

  const weights = Float64Array.from(taken, (reading, k) =>
    reading === undefined || blunt[k] === 1 ? 0 : Math.min(1, (reading.contrast / contrast) ** 2),
  );
  const shoulder = Math.ceil((TOUCHED * pxPerMm + TOUCHED_PIXELS) / spacing);
  for (const [k, reading] of taken.entries()) {
    if (blunt[k] === 1 || isClear(reading, k)) continue;
    for (let n = k - shoulder; n <= k + shoulder; n++) weights[((n % count) + count) % count] = 0;
  }
  const bridged = spacing * weights.filter((weight, k) => weight === 0 && blunt[k] === 0).length;
  return { readings: placesOf(stations, taken, weights), bridged, lineWidth };
};
