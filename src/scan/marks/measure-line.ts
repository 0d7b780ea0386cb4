/** A straight line of ink, measured in the full picture: middles across it at many places, then a robust fit. */
import type { Point } from '../../geometry/point.ts';
import { line, type Line } from '../../geometry/segment.ts';
import { measureEdge } from '../outline/measure-edge.ts';
import type { Picture } from '../picture.ts';

/** How far off its guess the line is looked for and how far apart its middles are read, millimetres. */
const REACH = 0.45;
const STEP = 0.4;
const FEWEST = 4;
const MOST = 300;
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

const middleOf = (values: readonly number[], share = 0.5): number =>
  values.toSorted((a, b) => a - b)[Math.min(values.length - 1, Math.floor(values.length * share))]!;

/** off = a + b * along, by least squares in rounds, each with less weight for what lies off the line before. */
const robustFit = (
  readings: readonly { along: number; off: number }[],
): { a: number; b: number; residuals: number[] } => {
  let weights = readings.map(() => 1);
  let [a, b] = [middleOf(readings.map((r) => r.off)), 0];
  let residuals = readings.map((r) => Math.abs(r.off - a));
  for (let round = 0; round < ROUNDS; round += 1) {
    const sum = (of: (r: { along: number; off: number }) => number): number =>
      readings.reduce((total, r, i) => total + weights[i]! * of(r), 0);
    const total = sum(() => 1);
    if (total === 0) break;
    const [along, off] = [sum((r) => r.along) / total, sum((r) => r.off) / total];
    const square = sum((r) => (r.along - along) ** 2);
    b = square === 0 ? 0 : sum((r) => (r.along - along) * (r.off - off)) / square;
    a = off - b * along;
    residuals = readings.map((r) => Math.abs(r.off - a - b * r.along));
    const cut = CUT * Math.max(LEAST_SPREAD, 1.48 * middleOf(residuals));
    weights = residuals.map((r) => (r < cut ? (1 - (r / cut) ** 2) ** 2 : 0));
  }
  return { a, b, residuals };
};

/**
 * Measures the line near `guess` within its `stretches` (pixels from its start). Nothing where it cannot be read in enough places.
 */
export const measureLine = (
  picture: Picture,
  guess: Line,
  stretches: readonly { readonly from: number; readonly to: number }[],
  pxPerMm: number,
): MeasuredLine | undefined => {
  const long = Math.hypot(guess.end.x - guess.start.x, guess.end.y - guess.start.y);
  const [dx, dy] = [(guess.end.x - guess.start.x) / long, (guess.end.y - guess.start.y) / long];
  const total = stretches.reduce((sum, s) => sum + Math.max(0, s.to - s.from), 0);
  const step = Math.max(total / MOST, Math.min(STEP * pxPerMm, total / 12));
  if (!(step > 0)) return undefined;
  let readings: { along: number; off: number; width: number; contrast: number }[] = [];
  for (const { from, to } of stretches) {
    const count = Math.max(1, Math.round((to - from) / step));
    for (let k = 0; k <= count; k += 1) {
      const along = from + ((to - from) * k) / count;
      const at = { x: guess.start.x + dx * along, y: guess.start.y + dy * along };
      const found = measureEdge(picture, at, { dx: -dy, dy: dx }, 'ink', pxPerMm, REACH * pxPerMm);
      if (found) readings.push({ along, off: found.offset, width: found.width!, contrast: found.contrast });
    }
  }
  if (readings.length < FEWEST) return undefined;
  const width = middleOf(readings.map((r) => r.width));
  readings = readings.filter((r) => Math.abs(r.width - width) <= WIDTH_SHARE * width + 0.25);
  if (readings.length < FEWEST) return undefined;
  const { a, b, residuals } = robustFit(readings);
  const place = (along: number): Point => {
    const off = a + b * along;
    return { x: guess.start.x + dx * along - dy * off, y: guess.start.y + dy * along + dx * off };
  };
  return {
    line: line(place(0), place(long)),
    spread: middleOf(residuals),
    most: middleOf(residuals, 0.8),
    width,
    contrast: middleOf(readings.map((r) => r.contrast)),
  };
};
