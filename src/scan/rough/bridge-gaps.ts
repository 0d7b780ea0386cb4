import { PAPER } from './even-light.ts';
import { inkParts } from './ink-parts.ts';

/** Gaps up to this much missing ink, in millimetres, are closed: wear takes up to 0.6 mm out of a line; dashes lie 1 mm apart. */
const GAP = 0.8;

/** Between two long strokes that point at each other, and so are no dashes, this much: two gaps may lie side by side. */
const LONG_GAP = 1.3;

/** A stroke is long from this size on, in millimetres. */
const LONG = 20;

/** Blur makes a gap seem wider than what is missing; so far, in millimetres, its far end is looked for. */
const SEEN = 1.7;

/** A stroke points at a gap if its ink runs on away from it for this much, in millimetres, and for this many widths of a line. */
const POINTS = 0.9;
const WIDTHS = 3;

/** What is filled in is no gap but the space between two thick lines if it is longer than this, in millimetres. */
const LONGEST = 2;

/** Ways to look across a gap: every 11 degrees. */
const WAYS = 32;

/** How many pixels of a stroke's end belong to the gap's blur. */
const END = 3;

/** A picture's ink and what it was found in. */
export interface Inked {
  readonly ink: Uint8Array;
  readonly even: Uint8Array;
  readonly width: number;
  readonly height: number;
}

/**
 * The ink with short gaps filled: a stroke's end and the ink that it points at, with too little missing between them for the space
 * between dashes. How much is missing is summed over the blur (along the darkest of three pixels), so that neither blur nor a faded end changes it. What lies between two
 * lines that run side by side stays open, and so does what lies in the corner of two that meet.
 */
export const bridgeGaps = (inked: Inked, pxPerMm: number): Uint8Array => {
  const { ink, width, height } = inked;
  const bridged = ink.slice();
  const long = longStrokes(inked, LONG * pxPerMm);
  const filled: number[] = [];
  const enough = Math.round(Math.max(POINTS * pxPerMm, WIDTHS * usualWidth(inked)));
  const border = Math.ceil(SEEN * pxPerMm) + enough + END;
  const ways = Array.from({ length: WAYS }, (_, k) => wayOf((2 * Math.PI * k) / WAYS, border, width));
  for (let y = border; y < height - border; y += 1) {
    for (let at = y * width + border, last = (y + 1) * width - border; at < last; at += 1) {
      if (ink[at] === 0) continue;
      if (ink[at + 1]! + ink[at - 1]! + ink[at - width]! + ink[at + width]! > 3) continue;
      for (const way of ways) {
        const steps = stepsAcross(inked, long, enough, at, way, pxPerMm);
        for (let t = 1; t < steps; t += 1) {
          const pixel = at + way.offsets[way.middle + t]!;
          if (bridged[pixel] !== 0) continue;
          bridged[pixel] = FILLED;
          filled.push(pixel);
        }
      }
    }
  }
  for (const first of filled) if (bridged[first] === FILLED) settle(bridged, width, first, LONGEST * pxPerMm);
  return bridged;
};

const FILLED = 2;

/** How wide lines are, from the ink and its rim, in pixels; near enough where most ink is lines. */
const usualWidth = ({ ink, width, height }: Inked): number => {
  let [all, rim] = [0, 1];
  for (let at = width; at < width * (height - 1); at += 1) {
    if (ink[at] === 0) continue;
    all += 1;
    if (ink[at + 1]! + ink[at - 1]! + ink[at - width]! + ink[at + width]! < 4) rim += 1;
  }
  return (2 * all) / rim;
};

/** 1 on ink that hangs together, sides or corners, over at least `size` pixels across or down. */
const longStrokes = ({ ink, width, height }: Inked, size: number): Uint8Array => {
  const long = new Uint8Array(ink.length);
  for (const { pixels } of inkParts(ink.slice(), width, height, size)) for (const at of pixels) long[at] = 1;
  return long;
};

/** A way to look across: how far the pixel `t` steps on is from the first, at `middle + t`, and how far the pixel beside it. */
interface Way {
  readonly offsets: Int32Array;
  readonly middle: number;
  readonly beside: number;
}

const wayOf = (angle: number, reach: number, width: number): Way => {
  const [dx, dy] = [Math.cos(angle), Math.sin(angle)];
  return {
    offsets: Int32Array.from(
      { length: 2 * reach + 1 },
      (_, k) => Math.round((k - reach) * dy) * width + Math.round((k - reach) * dx),
    ),
    middle: reach,
    beside: Math.round(dx) * width + Math.round(-dy),
  };
};

/** The steps from a stroke's end at a pixel along a way to the ink across a gap; none, if there is no such gap. */
const stepsAcross = (
  { ink, even }: Inked,
  long: Uint8Array,
  enough: number,
  at: number,
  { offsets, middle, beside }: Way,
  pxPerMm: number,
): number => {
  if (ink[at + offsets[middle + 1]!] !== 0) return 0;
  for (let t = 1; t < enough; t += 1) if (ink[at + offsets[middle - t]!] === 0) return 0;
  let steps = 2;
  while (ink[at + offsets[middle + steps]!] === 0) {
    steps += 1;
    if (steps > SEEN * pxPerMm) return 0;
  }
  const half = at + offsets[middle + (steps >> 1)]!;
  for (let k = 1; k <= Math.min(3, steps >> 1); k += 1) {
    if (ink[half + k * beside] !== 0 || ink[half - k * beside] !== 0) return 0;
  }
  const darkest = (t: number): number => {
    const pixel = at + offsets[middle + t]!;
    return Math.min(PAPER, even[pixel]!, even[pixel - beside]!, even[pixel + beside]!);
  };
  let [near, far] = [PAPER, PAPER];
  for (let t = 0; t < END; t += 1) {
    near = Math.min(near, darkest(-t));
    far = Math.min(far, darkest(steps + t));
  }
  const full = Math.max(near, far);
  let missing = 0;
  for (let t = 1 - END; t < steps + END; t += 1) missing += Math.max(0, darkest(t) - full);
  let runsOn = long[at] !== 0 && long[at + offsets[middle + steps]!] !== 0;
  for (let t = steps; runsOn && t < steps + enough; t += 1) runsOn = ink[at + offsets[middle + t]!] !== 0;
  return missing <= (runsOn ? LONG_GAP : GAP) * pxPerMm * (PAPER - full) ? steps : 0;
};

/** Keeps the filled piece that begins at `first`, or opens it again if it is longer than a gap. */
const settle = (bridged: Uint8Array, width: number, first: number, longest: number): void => {
  const piece = [first];
  bridged[first] = 1;
  let [left, right, top, bottom] = [Infinity, 0, Infinity, 0];
  for (let k = 0; k < piece.length; k += 1) {
    const at = piece[k]!;
    const x = at % width;
    const y = (at - x) / width;
    [left, right, top, bottom] = [Math.min(left, x), Math.max(right, x), Math.min(top, y), Math.max(bottom, y)];
    for (const to of [at - 1, at + 1, at - width, at + width]) {
      if (bridged[to] !== FILLED) continue;
      bridged[to] = 1;
      piece.push(to);
    }
  }
  if (Math.max(right - left, bottom - top) + 1 > longest) for (const at of piece) bridged[at] = 0;
};
