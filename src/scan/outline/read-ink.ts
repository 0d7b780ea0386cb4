/**
 * The middle of an ink line across a profile of light. Ink takes a share of the light that falls on the paper: the profile is divided
 * by the paper's own light, which runs straight from one side of the line to the other, so that uneven light does not move the middle.
 * A thin line, blurred, never gets as dark as its ink: the level is half of the depth that it does reach, the same on both sides.
 */
import { crossing } from './crossing.ts';
import { FAINTEST, type EdgeReading } from './edge-reading.ts';
import { plateau } from './plateau.ts';
import type { Profile } from './sample-profile.ts';

/** From a line's half level to paper that no blur reaches, and how much paper is looked at there: millimetres. */
const BLUR = 0.13;
const PAPER = 0.4;

/** At least so many pixels of blur and of paper. */
const BLUR_PIXELS = 1.5;
const PAPER_PIXELS = 3;

/** Paper is the light that two thirds of the samples beside a line stay below: a stroke close by does not darken it. */
const PAPER_RANK = 0.66;

/** No line of a pattern is wider; millimetres. */
const WIDEST = 1.6;

/** Pixels to both sides of a line that its reading looks at. */
export const besideInk = (pxPerMm: number): number =>
  Math.max(BLUR * pxPerMm, BLUR_PIXELS) + Math.max(PAPER * pxPerMm, PAPER_PIXELS);

/** Reads profiles within `reach` pixels of their middles. */
export const inkReader = (pxPerMm: number, reach: number): ((profile: Profile) => EdgeReading | undefined) => {
  const scratch = new Float64Array(256);
  let ratio = new Float64Array(0);

  return ({ light, middle, step }) => {
    const last = light.length - 1;
    const near = Math.round(reach / step);
    if (ratio.length !== light.length) ratio = new Float64Array(light.length);
    const mean = (k: number): number => (light[k - 1]! + light[k]! + light[k + 1]!) / 3;

    let brightest = 0;
    let darkest = 1;
    for (let k = 1; k < last; k++) {
      const value = mean(k);
      if (value > brightest) brightest = value;
      if (Math.abs(k - middle) <= near && value < darkest) darkest = value;
    }
    if (brightest - darkest < FAINTEST) return undefined;

    // Runs below the half level with their middles within reach: one is the line, two are two lines.
    const half = (brightest + darkest) / 2;
    let from = -1;
    let to = -1;
    for (let k = 0; k <= last; k++) {
      if (light[k]! >= half) continue;
      const start = k;
      while (k < last && light[k + 1]! < half) k++;
      if (Math.abs((start + k) / 2 - middle) > near) continue;
      if (from >= 0 && start - to > 2) return undefined;
      if (from < 0) from = start;
      to = k;
    }
    if (from < 0) return undefined;

    const blur = Math.ceil(Math.max(BLUR * pxPerMm, BLUR_PIXELS) / step);
    const span = Math.min(scratch.length, Math.ceil(Math.max(PAPER * pxPerMm, PAPER_PIXELS) / step));
    const within = plateau(light, from - blur - span, from - blur, PAPER_RANK, scratch);
    const beyond = plateau(light, to + blur + 1, to + blur + 1 + span, PAPER_RANK, scratch);
    if (within === undefined || beyond === undefined) return undefined;

    // The paper's light along the profile, from the middle of one stretch of paper to the middle of the other.
    const slope = (beyond - within) / (to - from + 2 * blur + 1 + span);
    const start = from - blur - (span - 1) / 2;
    let deepest = 1;
    let bottom = -1;
    const [lowest, highest] = [Math.max(0, from - blur), Math.min(last, to + blur)];
    for (let k = lowest; k <= highest; k++) ratio[k] = light[k]! / (within + slope * (k - start));
    for (let k = Math.max(from, lowest + 1); k <= Math.min(to, highest - 1); k++) {
      const value = (ratio[k - 1]! + ratio[k]! + ratio[k + 1]!) / 3;
      if (value < deepest) [deepest, bottom] = [value, k];
    }
    if (bottom < 0) return undefined;
    const contrast = (1 - deepest) * (within + slope * (bottom - start));
    if (contrast < FAINTEST) return undefined;

    const level = (1 + deepest) / 2;
    let left = bottom;
    while (left >= lowest && ratio[left]! < level) left--;
    let right = bottom;
    while (right <= highest && ratio[right]! < level) right++;
    if (left < lowest || right > highest) return undefined;
    const inner = left + crossing(ratio, left, level);
    const outer = right - 1 + crossing(ratio, right - 1, level);
    const width = (outer - inner) * step;
    if (width > WIDEST * pxPerMm) return undefined;
    return { offset: ((inner + outer) / 2 - middle) * step, width, contrast };
  };
};
