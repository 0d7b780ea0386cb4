import { PAPER } from './even-light.ts';

/** Gaps up to this much missing ink, in millimetres, are closed: wear takes up to 0.6 mm out of a line; dashes lie 1 mm apart. */
const GAP = 0.8;

/** Blur makes a gap seem wider than what is missing; so far, in millimetres, its far end is looked for. */
const SEEN = 1.2;

/** A stroke points at a gap if its ink runs on for this much, in millimetres, away from it: more than most lines are wide. */
const POINTS = 0.9;

/** What is filled in is no gap but the space between two thick lines if it is longer than this, in millimetres. */
const LONGEST = 1.6;

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
 * between dashes. How much is missing is summed over the blur, so that neither blur nor a faded end changes it. What lies between two
 * lines that run side by side stays open.
 */
export const bridgeGaps = (inked: Inked, pxPerMm: number): Uint8Array => {
  const { ink, width, height } = inked;
  const bridged = ink.slice();
  const filled: number[] = [];
  const ways = Array.from({ length: WAYS }, (_, k) => ({
    dx: Math.cos((2 * Math.PI * k) / WAYS),
    dy: Math.sin((2 * Math.PI * k) / WAYS),
  }));
  const border = Math.ceil((SEEN + POINTS) * pxPerMm) + END;
  for (let y = border; y < height - border; y += 1) {
    for (let x = border; x < width - border; x += 1) {
      const at = y * width + x;
      if (ink[at] === 0) continue;
      if (ink[at + 1]! + ink[at - 1]! + ink[at - width]! + ink[at + width]! > 3) continue;
      for (const { dx, dy } of ways) {
        const steps = stepsAcross(inked, x, y, dx, dy, pxPerMm);
        for (let t = 1; t < steps; t += 1) {
          const pixel = Math.round(y + t * dy) * width + Math.round(x + t * dx);
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

/** The steps from a stroke's end at (x, y) along (dx, dy) to the ink across a gap; none, if there is no such gap. */
const stepsAcross = (inked: Inked, x: number, y: number, dx: number, dy: number, pxPerMm: number): number => {
  const { ink, even, width } = inked;
  const place = (t: number): number => Math.round(y + t * dy) * width + Math.round(x + t * dx);
  if (ink[place(1)] !== 0) return 0;
  let steps = 2;
  while (ink[place(steps)] === 0) {
    steps += 1;
    if (steps > SEEN * pxPerMm) return 0;
  }
  const long = Math.round(POINTS * pxPerMm);
  let run = 0;
  while (run < long && ink[place(-run)] !== 0) run += 1;
  if (run < long) return 0;
  let [near, far] = [PAPER, PAPER];
  for (let t = 0; t < END; t += 1) {
    near = Math.min(near, even[place(-t)]!);
    far = Math.min(far, even[place(steps + t)]!);
  }
  const full = Math.max(near, far);
  let missing = 0;
  for (let t = 1 - END; t < steps + END; t += 1) missing += Math.max(0, Math.min(PAPER, even[place(t)]!) - full);
  return missing <= GAP * pxPerMm * (PAPER - full) ? steps : 0;
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
