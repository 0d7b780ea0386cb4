import { PAPER } from './even-light.ts';
import { ruledLevel } from './ruled-level.ts';

/**
 * A stroke reaches out to this share of the way from its ink to the paper: a little more than half-way, since a thin line that lies
 * half on one row of pixels and half on the next darkens both by half.
 */
const LEVEL = 0.54;

/** Ink is told from the darkest place this near, in millimetres: half a thick line and its blur. */
const NEAR = 0.7;

/** Nothing counts as a stroke whose darkest place nearby is lighter than this share of the paper: noise, creases, shading. */
const FAINTEST = 0.75;

/** A stroke is print if it is, somewhere, darker than this share of the way from ink to paper. */
const PRINTED = 0.5;

/** The darkest value within a box of `2 * reach + 1` pixels round a pixel. */
const darkestNear = (even: Uint8Array, width: number, height: number, at: number, reach: number): number => {
  const x = at % width;
  const y = (at - x) / width;
  const across = Math.min(width - 1, x + reach) - Math.max(0, x - reach);
  let least = 255;
  for (let v = Math.max(0, y - reach); v <= Math.min(height - 1, y + reach); v += 1) {
    for (let from = v * width + Math.max(0, x - reach), end = from + across; from <= end; from += 1) {
      if (even[from]! < least) least = even[from]!;
    }
  }
  return least;
};

/** All strokes, print and pencil alike, each as wide as it is about half-way from its own ink to the paper; and how dark print is. */
export interface Strokes {
  readonly mask: Uint8Array;
  /** A stroke with no value below this is not print. */
  readonly printed: number;
}

/** The strokes of an evened picture; on ruled paper, those that are darker than its ruling. */
export const inkStrokes = (even: Uint8Array, width: number, height: number, pxPerMm: number): Strokes => {
  const mask = anyStrokes(even, width, height, pxPerMm);
  const level = ruledLevel(even, mask, width, height, pxPerMm) ?? 255;
  const bins = new Uint32Array(256);
  let count = 0;
  for (let at = 0; at < even.length; at += 1) {
    if (mask[at] === 0) continue;
    if (even[at]! > level) mask[at] = 0;
    else {
      bins[even[at]!]! += 1;
      count += 1;
    }
  }
  let ink = 0;
  for (let below = bins[0]!; below < count / 4; below += bins[ink]!) ink += 1;
  return { mask, printed: ink + PRINTED * (PAPER - ink) };
};

/** 1 on strokes however pale. */
const anyStrokes = (even: Uint8Array, width: number, height: number, pxPerMm: number): Uint8Array => {
  const reach = Math.max(2, Math.round(NEAR * pxPerMm));
  const mask = new Uint8Array(even.length);
  const faintest = FAINTEST * PAPER;
  for (let at = 0; at < even.length; at += 1) {
    const own = even[at]!;
    if (own >= faintest + LEVEL * (PAPER - faintest)) continue;
    if (own >= LEVEL * PAPER) {
      const least = darkestNear(even, width, height, at, reach);
      if (least >= faintest || own >= least + LEVEL * (PAPER - least)) continue;
    }
    mask[at] = 1;
  }
  return mask;
};

/** Clears every stroke (joined sides or corners) that is nowhere as dark as print, and tells whether any print is left. */
export const keepPrint = (mask: Uint8Array, even: Uint8Array, width: number, height: number, printed: number): void => {
  const PRINT = 2;
  const stack: number[] = [];
  for (let at = 0; at < mask.length; at += 1) {
    if (mask[at] !== 1 || even[at]! >= printed) continue;
    mask[at] = PRINT;
    stack.push(at);
    for (let from = stack.pop(); from !== undefined; from = stack.pop()) {
      const [x, y] = [from % width, Math.floor(from / width)];
      for (let v = Math.max(0, y - 1); v <= Math.min(height - 1, y + 1); v += 1) {
        for (let u = Math.max(0, x - 1); u <= Math.min(width - 1, x + 1); u += 1) {
          const to = v * width + u;
          if (mask[to] !== 1) continue;
          mask[to] = PRINT;
          stack.push(to);
        }
      }
    }
  }
  for (let at = 0; at < mask.length; at += 1) mask[at] = mask[at] === PRINT ? 1 : 0;
};
