import type { Box } from '../geometry/box.ts';
import type { Matrix } from '../geometry/matrix.ts';

/** What a panel takes up, in its own coordinates, and how high its waist lies there. */
export interface RowItem {
  readonly box: Box;
  readonly waist: number;
}

/** Panels laid side by side on one waist line. */
export interface PanelRow {
  /** Millimetres on the picture for each of the cloth. */
  readonly scale: number;
  /** How high the waist line lies on the picture. */
  readonly waist: number;
  /** From each panel's own coordinates to the picture. */
  readonly places: readonly Matrix[];
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** The most that a row may take up, with `gap` between two panels; on the picture. */
export interface RowSize {
  readonly width: number;
  readonly height: number;
  readonly gap: number;
}

/** Where a row begins, at which scale, with `gap` between two panels. */
export interface RowPlace {
  readonly left: number;
  readonly top: number;
  readonly scale: number;
  readonly gap: number;
}

/** A scale that a ruler can undo; what is very small, as for a doll, is drawn larger than it is. */
const SCALES = [
  4,
  3,
  2,
  1,
  1 / 2,
  1 / 3,
  1 / 4,
  1 / 5,
  1 / 6,
  1 / 8,
  1 / 10,
  1 / 12,
  1 / 15,
  1 / 20,
  1 / 30,
  1 / 50,
] as const;

/** The largest scale of whole numbers at which all rows fit the room, each by itself; where none does, the smallest. */
export const commonScale = (rows: readonly (readonly RowItem[])[], { width, height, gap }: RowSize): number =>
  SCALES.find((scale) =>
    rows.every((items) => {
      const { wide, above, below } = extentOf(items);
      return wide * scale + gap * (items.length - 1) <= width && (above + below) * scale <= height;
    }),
  ) ?? SCALES.at(-1)!;

const extentOf = (
  items: readonly RowItem[],
): { readonly wide: number; readonly above: number; readonly below: number } => ({
  wide: items.reduce((sum, { box }) => sum + box.maxX - box.minX, 0),
  above: Math.max(0, ...items.map(({ box, waist }) => waist - box.minY)),
  below: Math.max(0, ...items.map(({ box, waist }) => box.maxY - waist)),
});

/** The panels in their order from the left. */
export const rowOfPanels = (items: readonly RowItem[], room: RowPlace): PanelRow => {
  const { above, below } = extentOf(items);
  const { scale } = room;
  const waist = room.top + above * scale;
  let x = room.left;
  const places = items.map(({ box, waist: own }, at): Matrix => {
    const place = { a: scale, b: 0, c: 0, d: scale, e: x - box.minX * scale, f: waist - own * scale };
    x += (items[at]!.box.maxX - items[at]!.box.minX) * scale + room.gap;
    return place;
  });
  return {
    scale,
    waist,
    places,
    left: room.left,
    right: x - room.gap,
    top: room.top,
    bottom: waist + below * scale,
  };
};

/** `1:2` for half the size, `2:1` for twice. */
export const scaleWords = (scale: number): string =>
  scale > 1 ? `${Math.round(scale)}:1` : `1:${Math.round(1 / scale)}`;
