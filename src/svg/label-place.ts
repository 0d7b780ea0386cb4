import { crossHorizontal } from '../geometry/intersect.ts';
import { outlineOf } from '../pattern/outline.ts';
import type { Panel } from '../pattern/panel.ts';
import type { Path } from '../geometry/path.ts';
import { pathBox } from '../geometry/box.ts';
import { textWidth } from './text-width.ts';

/** Sizes that are tried for the names of a sheet, in millimetres. */
const SIZES = [6, 5.5, 5, 4.5, 4, 3.5, 3, 2.5] as const;

/** Room for notches between a name and the edge; to the grainline; to the level above; to the level below and its own name. */
const [TO_EDGE, TO_GRAIN, BELOW_LEVEL, ABOVE_LEVEL] = [7, 1.5, 2, 6] as const;

/** A line of text sits about its middle when its base line lies this share of its size below it. */
const BASE_LINE = 0.35;

/** Looks across a panel from the top of a name to its bottom. */
const LOOKS = 4;

export interface LabelPlace {
  /** Middle of the base line. */
  readonly x: number;
  readonly y: number;
  readonly size: number;
  /** Whether the name runs up the panel instead of across it. */
  readonly upright: boolean;
}

/**
 * Where the names of a sheet's panels stand: all of one size, the largest that finds room on every panel; each between two levels, to
 * one side of the grainline, across the panel where it fits and else along it. A name that finds no room stands in the tallest one. Gussets, which are
 * small, have each a size of its own.
 */
export const labelPlaces = (panels: readonly Panel[]): LabelPlace[] => {
  const common = placesOf(panels.filter(({ gusset }) => gusset === undefined)).values();
  return panels.map((panel) => (panel.gusset ? placesOf([panel])[0]! : common.next().value!));
};

const placesOf = (panels: readonly Panel[]): LabelPlace[] => {
  const rooms = panels.map(roomsOf);
  for (const size of SIZES) {
    const places = panels.map((panel, at) => placeIn(panel, rooms[at]!, size));
    if (places.every((place) => place !== undefined) || size === SIZES.at(-1)) {
      return places.map((place, at) => place ?? middleOf(rooms[at]![0]!, size, panels[at]!.gusset !== undefined));
    }
  }
  return [];
};

/** A stretch of a panel between two levels. */
interface Room {
  readonly outline: Path;
  readonly top: number;
  readonly bottom: number;
}

/** The tallest first. */
const roomsOf = (panel: Panel): Room[] => {
  const outline = outlineOf(panel);
  const { minY, maxY } = pathBox(outline);
  const stops = [minY, ...panel.levels.map((level) => level.y), maxY].toSorted((a, b) => a - b);
  return stops
    .slice(1)
    .map((bottom, at) => ({ outline, top: stops[at]!, bottom }))
    .toSorted((a, b) => b.bottom - b.top - (a.bottom - a.top));
};

const placeIn = (panel: Panel, rooms: readonly Room[], size: number): LabelPlace | undefined => {
  const length = textWidth(panel.name, size);
  for (const room of rooms) {
    for (const upright of [false, true]) {
      const [width, height] = upright ? [size, length] : [length, size];
      const [top, bottom] = [room.top + BELOW_LEVEL, room.bottom - ABOVE_LEVEL];
      if (bottom - top < height) continue;
      const middle = (top + bottom) / 2;
      const [from, to] = widestGap(panel, room.outline, middle - height / 2, middle + height / 2);
      if (to - from >= width) return placedAt((from + to) / 2, middle, size, upright);
    }
  }
  return undefined;
};

/** From left to right, what is free between two heights: the wider side of a grainline that passes there. */
const widestGap = ({ grain }: Panel, outline: Path, top: number, bottom: number): readonly [number, number] => {
  let [left, right] = [-Infinity, Infinity];
  for (let look = 0; look <= LOOKS; look += 1) {
    const across = crossHorizontal(outline, top + ((bottom - top) * look) / LOOKS).map(({ point }) => point.x);
    left = Math.max(left, Math.min(...across) + TO_EDGE);
    right = Math.min(right, Math.max(...across) - TO_EDGE);
  }
  if (grain === undefined) return [left, right];
  const [low, high] = [Math.min(grain.from.y, grain.to.y), Math.max(grain.from.y, grain.to.y)];
  if (high < top || low > bottom) return [left, right];
  const [leftOf, rightOf] = [
    Math.min(grain.from.x, grain.to.x) - TO_GRAIN,
    Math.max(grain.from.x, grain.to.x) + TO_GRAIN,
  ];
  return leftOf - left > right - rightOf ? [left, Math.min(leftOf, right)] : [Math.max(rightOf, left), right];
};

const middleOf = ({ outline, top, bottom }: Room, size: number, upright: boolean): LabelPlace => {
  const { minX, maxX } = pathBox(outline);
  return placedAt((minX + maxX) / 2, (top + bottom) / 2, size, upright);
};

const placedAt = (x: number, y: number, size: number, upright: boolean): LabelPlace => {
  const down = BASE_LINE * size;
  const [baseX, baseY] = upright ? [x + down, y] : [x, y + down];
  return { x: Math.round(baseX * 10) / 10, y: Math.round(baseY * 10) / 10, size, upright };
};
