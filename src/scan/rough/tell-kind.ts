import type { PictureKind } from '../rough-outline.ts';
import { growMask } from './grow-mask.ts';
import type { Reduced } from './reduce-picture.ts';
import { solidParts, takeFromBorder } from './solid-parts.ts';
import { twoLevels } from './two-levels.ts';

/** Dark that is wider than this, in millimetres, is no printed line. */
const SOLID = 1.5;

/** Less solid dark than this share of the picture is a blot, a heading or the lid's edge. */
const LITTLE = 0.015;

/** A sheet that lies on a dark ground fills its upright box by more than this, turned by a few degrees; cut-out pieces do not. */
const SHEET = 0.85;

/** And it is most of the picture. */
const MOST = 0.5;

/** Thin dark on a sheet of lines, as a share of the sheet; a cut-out piece bears less. */
const DRAWN = 0.003;

/** So much more, as a share of the ground, is not what lies about beside dark pieces, such as the square. */
const DRAWN_ON_GROUND = 0.006;

/** Ink on grey paper is darker than this share of the paper. */
const INK = 0.5;

/** Of the sides of solid dark, how many must be sharp: uneven light has none. */
const SHARP = 0.4;

/** Working pixels along each side that become one: half a millimetre is fine enough to tell a line from a ground. */
const COARSER = 3;

/** A smaller field: each value is the mean of 3 by 3. */
const coarser = ({ step, width: fine, height: fineHeight, light: from }: Reduced): Reduced => {
  const [width, height] = [Math.max(1, Math.floor(fine / COARSER)), Math.max(1, Math.floor(fineHeight / COARSER))];
  const light = new Float32Array(width * height);
  for (let y = 0; y < Math.min(fineHeight, height * COARSER); y += 1) {
    let to = Math.floor(y / COARSER) * width;
    for (let at = y * fine, end = at + width * COARSER; at < end; at += COARSER, to += 1) {
      let sum = 0;
      for (let k = 0; k < COARSER && k < fine; k += 1) sum += from[at + k]!;
      light[to]! += sum;
    }
  }
  for (let at = 0; at < light.length; at += 1) light[at]! /= COARSER ** 2;
  return { step: step * COARSER, width, height, light };
};

/** Tells pieces on a ground from lines on paper: pieces or ground are solid dark with sharp sides, lines are thin. */
export const tellKind = (reduced: Reduced, workingPxPerMm: number): PictureKind => {
  const { width, height, light } = coarser(reduced);
  const pxPerMm = workingPxPerMm / COARSER;
  const levels = twoLevels(light);
  const dark = new Uint8Array(light.length);
  for (let at = 0; at < light.length; at += 1) dark[at] = light[at]! < levels.between ? 1 : 0;
  const reach = Math.max(1, Math.round((SOLID * pxPerMm) / 2));
  const solid = solidParts(dark, width, height, reach);
  const sharp = sharpShare(solid, light, width, height, 2 * reach + 2, (levels.light - levels.dark) / 2);
  if (sharp < SHARP) return 'line';
  const beyond = takeFromBorder(solid, width, height);
  const [inner, outer] = [share(solid), share(beyond)];
  if (inner > LITTLE) {
    const isGrey = isSheet(solid, width, height, (at) => light[at]! < INK * levels.dark);
    if (isGrey) return 'line';
    if (outer >= LITTLE) return 'cutout';
    growMask(solid, width, height, 1, 1.5 * reach + 2);
    return isDrawnOn(solid, dark, DRAWN_ON_GROUND) ? 'line' : 'cutout';
  }
  if (outer < LITTLE) return 'line';
  const paper = beyond.map((is) => 1 - is);
  growMask(beyond, width, height, 1, 1.5 * reach + 2);
  return isSheet(paper, width, height, (at) => dark[at] !== 0 && beyond[at] === 0) ? 'line' : 'cutout';
};

/** Whether dark lies on more than a share of what is not masked. */
const isDrawnOn = (mask: Uint8Array, dark: Uint8Array, least: number): boolean => {
  let [count, drawn] = [0, 0];
  for (let at = 0; at < mask.length; at += 1) {
    if (mask[at] !== 0) continue;
    count += 1;
    drawn += dark[at]!;
  }
  return drawn > least * count;
};

const share = (mask: Uint8Array): number => {
  let count = 0;
  for (let at = 0; at < mask.length; at += 1) count += mask[at]!;
  return count / mask.length;
};

/** Of the places where solid dark begins along a row or ends, how many have light by more than `step` brighter `away` from it. */
const sharpShare = (
  solid: Uint8Array,
  light: Float32Array,
  width: number,
  height: number,
  away: number,
  step: number,
): number => {
  let [sides, sharp] = [0, 0];
  for (let y = 0; y < height; y += 3) {
    for (let x = away; x < width - away; x += 1) {
      const at = y * width + x;
      if (solid[at] === 0) continue;
      for (let way = -1; way <= 1; way += 2) {
        if (solid[at + way] !== 0) continue;
        sides += 1;
        if (light[at + way * away]! - light[at]! > step) sharp += 1;
      }
    }
  }
  return sides === 0 ? 0 : sharp / sides;
};

/** Whether paper is one sheet, most of the picture, with ink on it. */
const isSheet = (paper: Uint8Array, width: number, height: number, isInk: (at: number) => boolean): boolean => {
  let [left, right, top, bottom, count, drawn] = [width, -1, height, -1, 0, 0];
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const at = y * width + x;
      if (paper[at] === 0) continue;
      count += 1;
      if (isInk(at)) drawn += 1;
      left = Math.min(left, x);
      right = Math.max(right, x);
      top = Math.min(top, y);
      bottom = y;
    }
  }
  const box = (right - left + 1) * (bottom - top + 1);
  return count > SHEET * box && box > MOST * width * height && drawn > DRAWN * count;
};
