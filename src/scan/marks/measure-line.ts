/** A straight line of ink, measured in the full picture: middles across it at many places, then a robust fit. */
import type { Point } from '../../geometry/point.ts';
import { line, type Line } from '../../geometry/segment.ts';
import { edgeReader } from '../outline/edge-reader.ts';
import type { Picture } from '../picture.ts';
import type { OutlineEdge } from '../rough-outline.ts';
import { medianOf, quantileOf } from '../quantile-of.ts';

/** How far off its guess the line is looked for and how far apart its middles are read, millimetres. */
const REACH = 0.45;
const STEP = 0.4;
const FEWEST = 4;
const MOST = 80;
const ROUNDS = 8;
/** Readings beyond this many spreads have no weight (Tukey's biweight); the spread is at least this many pixels. */
const CUT = 4.7;
const LEAST_SPREAD = 0.03;
/** A reading much wider or narrower than the middle one is no reading of the line alone. */
const WIDTH_SHARE = 0.35;

export interface MeasuredLine {
  /** The guess, moved onto the measured middle. */
  readonly line: Line;
  /** Pixels: half of the readings lie nearer to the line than this; four fifths nearer than `most`. */
  readonly spread: number;
  readonly most: number;
  readonly width: number;
  readonly contrast: number;
}

interface Reading {
  readonly along: number;
  readonly off: number;
  readonly width: number;
  readonly contrast: number;
}

/** off = a + b * along, by least squares in rounds, each with less weight for what lies off the line before. */
const robustFit = (readings: readonly Reading[]): { a: number; b: number; residuals: number[] } => {
  let [a, b] = [medianOf(readings.map((r) => r.off)), 0];
  let residuals = readings.map((r) => Math.abs(r.off - a));
  for (let round = 0; round < ROUNDS; round += 1) {
    // The first round takes all: a line's direction is not yet known.
    const cut = round === 0 ? Infinity : CUT * Math.max(LEAST_SPREAD, 1.48 * medianOf(residuals));
    let [w, x, y, xx, xy] = [0, 0, 0, 0, 0];
    for (const [i, { along, off }] of readings.entries()) {
      const share = residuals[i]! / cut;
      if (share >= 1) continue;
      const weight = (1 - share * share) ** 2;
      w += weight;
      x += weight * along;
      y += weight * off;
      xx += weight * along * along;
      xy += weight * along * off;
    }
    const square = w * xx - x * x;
    b = square > 0 ? (w * xy - x * y) / square : 0;
    a = (y - b * x) / w;
    residuals = readings.map((r) => Math.abs(r.off - a - b * r.along));
  }
  return { a, b, residuals };
};

/**
 * Measures the line near `guess` within its `stretches` (pixels from its start): the middle of ink, or a piece's edge, the piece lying to
 * the left as the line runs on the page. Nothing where it cannot be read in enough places.
 */
export const measureLine = (
  picture: Picture,
  guess: Line,
  stretches: readonly { readonly from: number; readonly to: number }[],
  pxPerMm: number,
  edge: OutlineEdge = 'ink',
): MeasuredLine | undefined => {
  const long = Math.hypot(guess.end.x - guess.start.x, guess.end.y - guess.start.y);
  const [dx, dy] = [(guess.end.x - guess.start.x) / long, (guess.end.y - guess.start.y) / long];
  const total = stretches.reduce((sum, s) => sum + Math.max(0, s.to - s.from), 0);
  const step = Math.max(total / MOST, Math.min(STEP * pxPerMm, total / 12));
  if (!(step > 0)) return undefined;
  const read = edgeReader(picture, edge, pxPerMm, REACH * pxPerMm);
  let readings: Reading[] = [];
  for (const { from, to } of stretches) {
    const count = Math.max(1, Math.round((to - from) / step));
    for (let k = 0; k <= count; k += 1) {
      const along = from + ((to - from) * k) / count;
      const at = { x: guess.start.x + dx * along, y: guess.start.y + dy * along };
      const found = read(at, { dx: -dy, dy: dx });
      if (found) readings.push({ along, off: found.offset, width: found.width ?? 0, contrast: found.contrast });
    }
  }
  if (readings.length < FEWEST) return undefined;
  const width = medianOf(readings.map((r) => r.width));
  readings = readings.filter((r) => Math.abs(r.width - width) <= WIDTH_SHARE * width + 0.25);
  if (readings.length < FEWEST) return undefined;
  const { a, b, residuals } = robustFit(readings);
  const place = (along: number): Point => {
    const off = a + b * along;
    return { x: guess.start.x + dx * along - dy * off, y: guess.start.y + dy * along + dx * off };
  };
  return {
    line: line(place(0), place(long)),
    spread: medianOf(residuals),
    most: quantileOf(residuals, 0.8),
    width,
    contrast: medianOf(readings.map((r) => r.contrast)),
  };
};
