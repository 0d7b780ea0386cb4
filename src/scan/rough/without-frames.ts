import { polygonArea } from '../../geometry/area.ts';
import type { Point } from '../../geometry/point.ts';
import type { RoughOutline } from '../rough-outline.ts';

/** An outline fills this share of the smallest box round it if it is a rectangle. */
const RECTANGLE = 0.95;

/** The sides of a square differ by less than this share. */
const SQUARE = 0.1;

/** A frame takes up at least this share of the picture. */
const LARGE = 0.25;

/** Outlines smaller than this, in millimetres, do not make a frame of what is round them. */
const SMALL = 20;

/** Turns that are tried for the smallest box: every half degree through a right angle. */
const TURNS = 180;

interface Box {
  readonly long: number;
  readonly short: number;
  /** The share of the box that the outline fills. */
  readonly fill: number;
}

/** The smallest box round an outline. */
const boxRound = (points: readonly Point[]): Box => {
  const every = Math.max(1, Math.floor(points.length / 400));
  const some = points.filter((_, k) => k % every === 0);
  let box = { long: Infinity, short: Infinity };
  for (let k = 0; k < TURNS; k += 1) {
    const [c, s] = [Math.cos((Math.PI * k) / 2 / TURNS), Math.sin((Math.PI * k) / 2 / TURNS)];
    let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity];
    for (const { x, y } of some) {
      const [u, v] = [c * x + s * y, c * y - s * x];
      [left, right, top, bottom] = [Math.min(left, u), Math.max(right, u), Math.min(top, v), Math.max(bottom, v)];
    }
    const [long, short] = [Math.max(right - left, bottom - top), Math.min(right - left, bottom - top)];
    if (long * short < box.long * box.short) box = { long, short };
  }
  return { ...box, fill: Math.abs(polygonArea(some)) / (box.long * box.short) };
};

/**
 * The outlines without frames: a large rectangle round an outline that is no rectangle itself, or round two or more that are no squares.
 * (A rectangular panel may hold its stitching line, which is a rectangle too, and a test square.)
 */
export const withoutFrames = (
  outlines: readonly RoughOutline[],
  pxPerMm: number,
  pictureArea: number,
): RoughOutline[] => {
  const boxes = outlines.map(({ points }) => boxRound(points));
  const isFrame = boxes.map(({ fill, long, short }, own) => {
    if (fill < RECTANGLE || long * short < LARGE * pictureArea) return false;
    const held = boxes.filter((box, k) => outlines[k]!.within === own && box.long >= SMALL * pxPerMm && !isSquare(box));
    return held.length > 1 || held.some((box) => box.fill < RECTANGLE);
  });
  const numbers: (number | undefined)[] = [];
  let count = 0;
  for (const frame of isFrame) numbers.push(frame ? undefined : count++);
  return outlines.flatMap(({ within, ...outline }, own) => {
    if (isFrame[own]!) return [];
    let round = within;
    while (round !== undefined && isFrame[round]!) round = outlines[round]!.within;
    return round === undefined ? [outline] : [{ ...outline, within: numbers[round]! }];
  });
};

const isSquare = ({ long, short, fill }: Box): boolean => fill >= RECTANGLE && short > (1 - SQUARE) * long;
