import type { Reading } from './reading.ts';

/**
 * Places round a closed outline in typed arrays for the inner loops, each with how far along the outline it lies. The ring is written down
 * three times over, the middle copy at `count` to `2 count - 1`, so that every neighbourhood is one stretch of the arrays.
 */
export interface Ring {
  readonly count: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly weight: Float64Array;
  /** How far along; from 0 up to `total` in the middle copy. */
  readonly along: Float64Array;
  readonly total: number;
  readonly spacing: number;
}

const COPIES = 3;

export const ringOf = (places: readonly number[][], total: number, spacing: number): Ring => {
  const count = places.length;
  const [x, y, weight, along] = [0, 1, 2, 3].map(() => new Float64Array(COPIES * count)) as [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  for (let copy = 0; copy < COPIES; copy += 1) {
    for (let i = 0; i < count; i += 1) {
      const to = copy * count + i;
      const place = places[i]!;
      x[to] = place[0]!;
      y[to] = place[1]!;
      weight[to] = place[2]!;
      along[to] = place[3]! + (copy - 1) * total;
    }
  }
  return { count, x, y, weight, along, total, spacing };
};

/** Lengths are taken over this many readings, so that their noise across the outline hardly adds to them. */
const STRIDE = 3;

/** The readings that were read, with how far along the outline each lies; those of weight 0 only add to the length. */
export const ringOfReadings = (readings: readonly Reading[]): Ring => {
  const n = readings.length;
  const places: number[][] = [];
  let along = 0;
  for (let i = 0; i < n; i += 1) {
    const { at, weight } = readings[i]!;
    if (weight > 0) places.push([at.x, at.y, weight, along]);
    const a = readings[(i + n - 1) % n]!.at;
    const b = readings[(i + STRIDE - 1) % n]!.at;
    along += Math.hypot(b.x - a.x, b.y - a.y) / STRIDE;
  }
  return ringOf(places, along, along / n);
};

/** The first place in the arrays that lies at `along` or beyond; `along` may reach one round beyond either end. */
export const firstFrom = (ring: Ring, along: number): number => {
  let [low, high] = [0, ring.along.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (ring.along[middle]! < along) low = middle + 1;
    else high = middle;
  }
  return low;
};

/** The same place along a ring, from 0 up to its total; exactly as it is where it lies there already. */
export const roundTo = (total: number, along: number): number =>
  along >= 0 && along < total ? along : ((along % total) + total) % total;
