import { fitLocally, MEDIAN_TO_SPREAD, medianOf, tukey, TUKEY } from './local-fit.ts';
import { ringOf, type Ring } from './ring.ts';

const BLOCK_MM = 1;
const AROUND_MM = 0.7;

/**
 * Fewer places instead of the readings, each the mean of those within `size` along the outline and of their weight together. Readings
 * far off a parabola through their neighbours are left out of the means. On a curve of radius R a mean lies size^2 / 24 R inside it.
 */
export const thinRing = (ring: Ring, pxPerMm: number, size: number): Ring => {
  const { count, spacing } = ring;
  const block = Math.max(2, Math.round((BLOCK_MM * pxPerMm) / spacing));
  const around = Math.max(2, Math.round((AROUND_MM * pxPerMm) / spacing));
  const robust = new Float64Array(count);
  for (let first = 0; first < count; first += block) {
    const end = Math.min(count, first + block);
    const [low, high] = [count + first - around, count + end + around];
    const residuals = new Float64Array(high - low);
    const fit = high - low < count ? fitLocally(ring, low, high, 2, residuals) : undefined;
    const limit = TUKEY * MEDIAN_TO_SPREAD * medianOf(residuals.map(Math.abs));
    for (let i = first; i < end; i += 1) {
      const share = fit === undefined || limit === 0 ? 0 : residuals[count + i - low]! / limit;
      robust[i] = ring.weight[count + i]! * tukey(share);
    }
  }
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
  return ringOf(places, ring.total, ring.total / bins);
};
