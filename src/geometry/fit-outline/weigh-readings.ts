import type { Feet } from './feet.ts';
import { tukey, TUKEY } from './local-fit.ts';
import type { OutlineModel } from './outline-model.ts';
import type { Ring } from './ring.ts';

/** At a right angle or a blunter one readings are worn within `blunt`; at a sharper one further, as far as two bands of one width overlap. */
const wornWithin = (blunt: number, turn: number): number =>
  blunt * Math.min(4, Math.max(1, Math.SQRT1_2 / Math.max(Math.cos(turn / 2), 0.05)));

/** The readings' own weights, but 0 for those of the middle copy that lie where a corner is worn. */
export const awayFromCorners = (ring: Ring, model: OutlineModel, blunt: number): Float64Array => {
  const weights = ring.weight.slice(ring.count, 2 * ring.count);
  for (const node of model.nodes) {
    if (!node.corner) continue;
    const worn = wornWithin(blunt, node.out - node.into);
    for (let i = 0; i < ring.count; i += 1) {
      const apart = Math.abs(ring.along[ring.count + i]! - node.along);
      if (Math.min(apart, ring.total - apart) > 3 * worn) continue;
      const [x, y] = [ring.x[ring.count + i]! - node.x, ring.y[ring.count + i]! - node.y];
      if (Math.hypot(x, y) < worn) weights[i] = 0;
    }
  }
  return weights;
};

/** The same by Tukey's weights, for readings that lie off by more than the spread of the rest. */
export const lessOutliers = (weights: Float64Array, feet: Feet, spread: number): Float64Array =>
  weights.map((w, i) => w * tukey(feet.off[i]! / (TUKEY * spread)));
