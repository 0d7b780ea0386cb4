import type { Point } from '../../geometry/point.ts';

/** Places in order round an outline at which it is measured, evenly spaced, with unit normals outwards. */
export interface Stations {
  readonly count: number;
  /** Pixels from one to the next. */
  readonly spacing: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly nx: Float64Array;
  readonly ny: Float64Array;
  /** 1 where a corner is too near to measure. */
  readonly blunt: Uint8Array;
}

export const emptyStations = (count: number, spacing: number): Stations => ({
  count,
  spacing,
  x: new Float64Array(count),
  y: new Float64Array(count),
  nx: new Float64Array(count),
  ny: new Float64Array(count),
  blunt: new Uint8Array(count),
});

/** One place is measured every tenth of a millimetre, and at most one a pixel. */
export const SPACING = 0.1;

/** Every fifth of a millimetre is enough as long as the outline is only to be measured again along what comes of it. */
export const DRAFT_SPACING = 0.2;

/** How many stations stand round an outline of `length` pixels. */
export const stationCount = (length: number, pxPerMm: number, spacing: number): number =>
  Math.max(8, Math.round(length / Math.max(1, spacing * pxPerMm)));

/** The length round a closed polygon. */
export const lengthRound = (points: readonly Point[]): number => {
  let length = 0;
  let before = points[points.length - 1]!;
  for (const p of points) {
    length += Math.hypot(p.x - before.x, p.y - before.y);
    before = p;
  }
  return length;
};
