import { growMask } from './grow-mask.ts';

/** Ink lines up to twice this, in millimetres, that run out over a piece's edge are part of the piece. */
const REACH = 0.65;

/** The tip of a cut is smaller than this, in square millimetres; only parts so small are looked at more closely. */
const TIP = 3;

/** What fills less than this share of its mouth times its depth narrows inwards: the tip of a cut, and no ink line. */
const NARROWS = 0.75;

/**
 * The pieces with narrow lines through them closed, as when a drawn line runs out over the edge. Cuts, which narrow inwards, stay
 * open down to their tips.
 */
export const closeStrokes = (mask: Uint8Array, width: number, height: number, pxPerMm: number): Uint8Array => {
  const closed = mask.slice();
  growMask(closed, width, height, 1, REACH * pxPerMm);
  growMask(closed, width, height, 0, REACH * pxPerMm);
  for (let at = 0; at < mask.length; at += 1) closed[at] = mask[at] !== 0 ? 1 : ADDED * closed[at]!;
  for (let at = 0; at < mask.length; at += 1)
    if (closed[at] === ADDED) settle(closed, width, at, TIP * pxPerMm * pxPerMm);
  return closed;
};

const ADDED = 2;

/** Keeps the added part that begins at `first`, or opens it again where it narrows inwards from a mouth. */
const settle = (closed: Uint8Array, width: number, first: number, tip: number): void => {
  const part = [first];
  const mouth = new Set<number>();
  closed[first] = 1;
  for (let k = 0; k < part.length; k += 1) {
    const at = part[k]!;
    const x = at % width;
    for (const to of [x > 0 ? at - 1 : at, x < width - 1 ? at + 1 : at, at - width, at + width]) {
      if (closed[to] === 0) mouth.add(at);
      if (closed[to] !== ADDED) continue;
      closed[to] = 1;
      part.push(to);
    }
  }
  if (mouth.size === 0 || part.length > tip) return;
  let [x, y] = [0, 0];
  for (const at of mouth) [x, y] = [x + (at % width) / mouth.size, y + Math.floor(at / width) / mouth.size];
  const depth =
    part.reduce((most, at) => Math.max(most, Math.hypot((at % width) - x, Math.floor(at / width) - y)), 0) + 1;
  if (part.length < NARROWS * mouth.size * depth) for (const at of part) closed[at] = 0;
};
