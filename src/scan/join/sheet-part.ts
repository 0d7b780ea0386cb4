import { brightestOf, type DetailMap } from './detail-map.ts';
import type { Part } from './scan-to-join.ts';

/** A frame is no deeper than this, and a little more than what is seen of it is left out; millimetres. */
const DEEPEST = 8;
const SAFETY = 0.7;

/** How much of the brightest light a frame differs from the sheet beside it. */
const DIFFERS = 0.25;

/** The share of a side that a frame takes at least: two other frames may meet it. */
const NEARLY_ALL = 0.92;

/** Pixels at the border that cubic interpolation needs round it. */
const RIM = 2;

/**
 * The part of a picture that shows the sheet. A strip along a whole side, of one depth and clearly darker or lighter than what lies
 * beside it along nearly the whole side, is the scanner's frame or lid and no part of the sheet. A piece of paper on its ground is
 * not taken for a frame: beside its corners the ground goes on.
 */
export const sheetPart = (light: DetailMap, pxPerMm: number): Part => {
  const { step, width, height, values } = light;
  const deepest = Math.round((DEEPEST * pxPerMm) / step);
  const beside = Math.ceil((1.5 * pxPerMm) / step);
  const straight = Math.max(1, Math.round((0.7 * pxPerMm) / step));
  const safety = SAFETY * pxPerMm;
  const brightest = brightestOf(light);
  const frame = (count: number, next: number, n: number, inwards: number, start: number): number => {
    if (n < 4 * (deepest + beside)) return 0;
    const at = (i: number, depth: number): number => values[start + i * next + depth * inwards]!;
    const differ = (depth: number, level: (i: number) => number): number => {
      let differing = 0;
      for (let i = 0; i < count; i++) if (Math.abs(at(i, depth) - level(i)) > DIFFERS * brightest) differing++;
      return differing / count;
    };
    for (let depth = deepest; depth > 0; depth--) {
      const sheet = (i: number): number => at(i, depth + beside);
      // Dark right up to its edge and none of it a millimetre on: the edge of the paper, which never lies so straight, is no frame's.
      if (differ(0, sheet) < NEARLY_ALL || differ(depth - 1, sheet) < NEARLY_ALL) continue;
      if (differ(depth + straight, sheet) > 1 - NEARLY_ALL) continue;
      return depth * step + safety;
    }
    return 0;
  };
  return {
    left: Math.max(RIM, frame(height, width, width, 1, 0)),
    top: Math.max(RIM, frame(width, 1, height, width, 0)),
    right: width * step - Math.max(RIM, frame(height, width, width, -1, width - 1)),
    bottom: height * step - Math.max(RIM, frame(width, 1, height, -width, (height - 1) * width)),
  };
};

/** A map of light in which what lies outside the part is as its border: a frame's contrast must not look like the sheet's. */
export const withinPart = (light: DetailMap, part: Part): DetailMap => {
  const { step, width, height } = light;
  const [left, right] = [Math.ceil(part.left / step), Math.max(0, Math.floor(part.right / step) - 1)];
  const [top, bottom] = [Math.ceil(part.top / step), Math.max(0, Math.floor(part.bottom / step) - 1)];
  const values = new Float32Array(width * height);
  for (let y = 0; y < height; y++) {
    const from = Math.max(0, Math.min(bottom, Math.max(top, y))) * width;
    for (let x = 0; x < width; x++) values[y * width + x] = light.values[from + Math.min(right, Math.max(left, x))]!;
  }
  return { ...light, values };
};
