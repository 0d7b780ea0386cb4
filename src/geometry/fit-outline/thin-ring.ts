import { fitLocally, MEDIAN_TO_SPREAD, medianOf, tukey, TUKEY } from './local-fit.ts';
import { ringOf, type Ring } from './ring.ts';

/** Outliers are told from a parabola through a block of places and some more on both sides; for readings, in mm, for thinned places, in number. */
const BLOCK_MM = 1;
const AROUND_MM = 0.7;
const BLOCK_THIN = 3;
const STRAY_ROUNDS = 3;
const AROUND_THIN = 5;

/** The weights of the places, less where one lies far off a parabola through its neighbours. */
const lessStrays = (ring: Ring, block: number, around: number): Float64Array => {
  const { count } = ring;
  const weights = ring.weight.slice(0, count);
  for (let first = 0; first < count; first += block) {
    const end = Math.min(count, first + block);
    const [low, high] = [count + first - around, count + end + around];
    if (high - low >= count) continue;
    const residuals = new Float64Array(high - low);
    if (fitLocally(ring, low, high, 2, residuals, STRAY_ROUNDS) === undefined) continue;
    const limit = TUKEY * MEDIAN_TO_SPREAD * medianOf(residuals.map(Math.abs));
    if (limit === 0) continue;
    for (let i = first; i < end; i += 1) weights[i]! *= tukey(residuals[count + i - low]! / limit);
  }
  return weights;
};

/**
 * Fewer places instead of the readings, each the mean of those within `size` along the outline and of their weight together. Readings
 * far off a parabola through their neighbours are left out of the means, and means far off one through theirs are lessened. On a curve
 * of radius R a mean lies size^2 / 24 R inside it.
 */
export const thinRing = (ring: Ring, pxPerMm: number, size: number, isDraft = false): Ring => {
  const { count, spacing } = ring;
  const inMm = (mm: number): number => Math.max(2, Math.round((mm * pxPerMm) / spacing));
  const robust = isDraft ? ring.weight.slice(0, count) : lessStrays(ring, inMm(BLOCK_MM), inMm(AROUND_MM));
  const bins = Math.max(1, Math.round(ring.total / size));
  const places: number[][] = [];
  let i = 0;
  for (let bin = 0; bin < bins; bin += 1) {
    const until = bin === bins - 1 ? Infinity : ((bin + 1) * ring.total) / bins;
    let [x, y, along, weight] = [0, 0, 0, 0];
    for (; i < count && ring.along[count + i]! < until; i += 1) {
      const w = robust[i]!;
      x += w * ring.x[count + i]!;
      y += w * ring.y[count + i]!;
      along += w * ring.along[count + i]!;
      weight += w;
    }
    if (weight > 0) places.push([x / weight, y / weight, weight, along / weight]);
  }
  const thin = ringOf(places, ring.total, ring.total / bins);
  const weights = lessStrays(thin, BLOCK_THIN, AROUND_THIN);
  const kept = places.map(([x, y, , along], k) => [x!, y!, weights[k]!, along!]).filter((place) => place[2]! > 0);
  return ringOf(kept, ring.total, ring.total / bins);
};
