import type { Feet } from './feet.ts';
import type { Noise } from './measure-noise.ts';
import type { Ring } from './ring.ts';

/** How badly each piece fits, from the mean distances of its readings over stretches of a few millimetres. */
export interface Misfit {
  /** The sum over its stretches of the square of (mean / doubt of the mean); about their number where all is noise. */
  readonly squares: number;
  readonly stretches: number;
  /** The largest (mean / doubt) and the largest mean; lengths as the ring's. */
  readonly worst: number;
  readonly furthest: number;
}

const STRETCH_MM = 2.5;

export const misfitOf = (
  ring: Ring,
  weights: Float64Array,
  feet: Feet,
  pieces: number,
  noise: Noise,
  pxPerMm: number,
): Misfit[] => {
  const misfits = Array.from({ length: pieces }, () => ({ squares: 0, stretches: 0, worst: 0, furthest: 0 }));
  const variance = noise.sigma * noise.sigma * noise.correlation;
  const longest = STRETCH_MM * pxPerMm;
  let [sum, weight, from, piece] = [0, 0, 0, -1];
  const close = (): void => {
    if (weight > 0 && piece >= 0) {
      const misfit = misfits[piece]!;
      const mean = sum / weight;
      const sure = Math.abs(mean) / Math.sqrt(variance / weight);
      misfit.squares += sure * sure;
      misfit.stretches += 1;
      misfit.worst = Math.max(misfit.worst, sure);
      misfit.furthest = Math.max(misfit.furthest, Math.abs(mean));
    }
    [sum, weight] = [0, 0];
  };
  for (let i = 0; i < ring.count; i += 1) {
    const along = ring.along[ring.count + i]!;
    if (feet.piece[i] !== piece || along - from > longest) {
      close();
      piece = feet.piece[i]!;
      from = along;
    }
    sum += weights[i]! * feet.off[i]!;
    weight += weights[i]!;
  }
  close();
  return misfits;
};
