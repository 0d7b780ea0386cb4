/**
 * How far each reading along an outline is to be believed. Another line that meets or crosses the outline, a tick or a pencil stroke makes
 * it broader; the sides of a cut make it jump. Such readings count for nothing, and neither do those so near that their profiles still
 * touch what lies there. A faded line is as true as a strong one, but noisier: it counts for less.
 */
import type { Reading } from '../../geometry/fit-outline.ts';
import type { EdgeReading } from './edge-reading.ts';
import type { Stations } from './stations.ts';

/** A line whose width differs from the usual one by more than this share is not the outline alone. */
const WIDTH_DIFFERS = 0.35;

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

const median = (values: number[]): number => values.toSorted((a, b) => a - b)[values.length >> 1]!;

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
  const contrast = median(read.map((reading) => reading.contrast));
  const widths = read.flatMap(({ width }) => (width === undefined ? [] : [width]));
  const lineWidth = widths.length === 0 ? undefined : median(widths);

  const over = Math.max(2, Math.round((JUMP_OVER * pxPerMm) / spacing));
  const isClear = (reading: EdgeReading | undefined, k: number): boolean => {
    if (reading === undefined || reading.contrast < FADED * contrast) return false;
    const { width, offset } = reading;
    if (width !== undefined && lineWidth !== undefined && Math.abs(width - lineWidth) > WIDTH_DIFFERS * lineWidth)
      return false;
    return [k - over, k + over].every((n) => {
      const other = taken[(n + count) % count];
      return other === undefined || Math.abs(other.offset - offset) <= steepest * over * spacing;
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
