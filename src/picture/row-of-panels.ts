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

export interface RowRoom {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  /** Between two panels, on the picture. */
  readonly gap: number;
}

/** A scale that a ruler can undo. */
const SCALES = [1, 1 / 2, 1 / 3, 1 / 4, 1 / 5, 1 / 6, 1 / 8, 1 / 10, 1 / 12, 1 / 15, 1 / 20, 1 / 30, 1 / 50] as const;

/** The panels in their order, as large as the room allows at a scale of whole numbers; what fits at none is drawn at the smallest. */
export const rowOfPanels = (items: readonly RowItem[], room: RowRoom): PanelRow => {
  const widths = items.map(({ box }) => box.maxX - box.minX);
  const above = Math.max(0, ...items.map(({ box, waist }) => waist - box.minY));
  const below = Math.max(0, ...items.map(({ box, waist }) => box.maxY - waist));
  const gaps = room.gap * (items.length - 1);
  const wide = widths.reduce((sum, width) => sum + width, 0);
  const fits = (scale: number): boolean => wide * scale + gaps <= room.width && (above + below) * scale <= room.height;
  const scale = SCALES.find(fits) ?? SCALES.at(-1)!;
  const waist = room.top + above * scale;
  let x = room.left;
  const places = items.map(({ box, waist: own }, at): Matrix => {
    const place = { a: scale, b: 0, c: 0, d: scale, e: x - box.minX * scale, f: waist - own * scale };
    x += widths[at]! * scale + room.gap;
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

/** `1:2` for half the size. */
export const scaleWords = (scale: number): string => `1:${Math.round(1 / scale)}`;
