/**
 * The edge of a piece of paper across a profile of light: where it crosses the half level between the piece and the ground, each
 * measured close to the edge, beyond its blur.
 */
import { crossing } from './crossing.ts';
import { FAINTEST, type EdgeReading } from './edge-reading.ts';
import { plateau } from './plateau.ts';
import type { Profile } from './sample-profile.ts';

/** From an edge to what its blur does not reach, and how much of each side is looked at there: millimetres, and at least so many pixels. */
const BLUR = 0.17;
const SIDE = 0.35;
const BLUR_PIXELS = 2;
const SIDE_PIXELS = 4;

/** Two steps of which the lesser is at least this share of the greater leave open which of them is the edge. */
const RIVAL = 0.6;

/** Pixels to both sides of an edge that its reading looks at. */
export const besideBorder = (pxPerMm: number): number =>
  Math.max(BLUR * pxPerMm, BLUR_PIXELS) + Math.max(SIDE * pxPerMm, SIDE_PIXELS);

/** Reads profiles within `reach` pixels of their middles; they run from the piece outwards. */
export const borderReader = (
  edge: 'lighter' | 'darker',
  pxPerMm: number,
  reach: number,
): ((profile: Profile) => EdgeReading | undefined) => {
  const scratch = new Float64Array(256);
  const sign = edge === 'lighter' ? 1 : -1;

  return ({ light, middle, step }) => {
    const last = light.length - 1;
    const near = Math.round(reach / step);
    const blur = Math.ceil(Math.max(BLUR * pxPerMm, BLUR_PIXELS) / step);
    const span = Math.min(scratch.length, Math.ceil(Math.max(SIDE * pxPerMm, SIDE_PIXELS) / step));
    const arm = Math.ceil(blur / 2);
    const fall = (k: number): number => sign * (light[k - arm]! - light[k + arm]!);

    // The steepest fall within reach, and the next one that a rise to half of it sets apart.
    let steepest = 0;
    let at = -1;
    const [first, final] = [Math.max(arm, middle - near), Math.min(last - arm, middle + near)];
    for (let k = first; k <= final; k++) if (fall(k) > steepest) [steepest, at] = [fall(k), k];
    if (at < 0 || steepest < FAINTEST / 2) return undefined;
    for (const way of [-1, 1]) {
      let apart = false;
      for (let k = at; k >= first && k <= final; k += way) {
        if (fall(k) < (RIVAL / 2) * steepest) apart = true;
        else if (apart && fall(k) > RIVAL * steepest) return undefined;
      }
    }

    let place = at;
    let contrast = 0;
    for (let round = 0; round < 2; round++) {
      const k = Math.round(place);
      const piece = plateau(light, k - blur - span, k - blur + 1, 0.5, scratch);
      const ground = plateau(light, k + blur, k + blur + span + 1, 0.5, scratch);
      if (piece === undefined || ground === undefined) return undefined;
      contrast = sign * (piece - ground);
      if (contrast < FAINTEST) return undefined;
      // From the steepest place to the crossing: outwards while it is still the piece, inwards while it is the ground already.
      const level = (piece + ground) / 2;
      const above = (i: number): boolean => sign * (light[i]! - level) > 0;
      let i = at;
      if (above(i)) while (i < last && above(i + 1)) i++;
      else while (i > 0 && !above(--i));
      if (i >= last || !above(i) || Math.abs(i - at) > 2 * blur) return undefined;
      place = i + crossing(light, i, level);
    }
    return { offset: (place - middle) * step, contrast };
  };
};
