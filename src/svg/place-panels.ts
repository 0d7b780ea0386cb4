import { joinBoxes, pathBox, type Box } from '../geometry/box.ts';
import type { Point } from '../geometry/point.ts';
import { SAME_POINT } from '../geometry/tolerance.ts';
import type { Panel } from '../pattern/panel.ts';
import { waistOf } from '../pattern/look-up.ts';
import { outlineOf } from '../pattern/outline.ts';
import type { Placing } from './sheet.ts';

const MARGIN = 20;
const GAP = 30;
/** Places are whole steps, so that a panel that grows by a little leaves its neighbours where they are. */
const STEP = 5;
/** Panels that stay where they lay need this much to the rim and between them at least. */
const [LEAST_MARGIN, LEAST_GAP] = [5, 10] as const;

const upTo = (value: number): number => Math.ceil(value / STEP) * STEP;

/** Everything drawn of a panel, in its own coordinates. */
const boxOf = (panel: Panel): Box => {
  const points = [
    ...panel.levels.flatMap(({ y, fromX, toX }) => [
      { x: fromX, y },
      { x: toX, y },
    ]),
    ...panel.notches.flatMap(({ at, inner }) => [at, inner]),
    ...(panel.grain ? [panel.grain.from, panel.grain.to] : []),
  ];
  const paths = [outlineOf(panel), ...(panel.cutting ? [panel.cutting] : []), ...panel.bones];
  return joinBoxes([...paths.map(pathBox), ...points.map(({ x, y }) => ({ minX: x, minY: y, maxX: x, maxY: y }))]);
};

/**
 * Where panels lie on a sheet. As they lay before, if all of them still have room there in their order and their waists are on one line,
 * so that a change of one panel leaves the places of the others alone; else side by side, lined up at the waist. A panel without a waist
 * hangs by its middle.
 */
export const placePanels = (panels: readonly Panel[], before?: Placing): Placing => {
  const boxes = panels.map(boxOf);
  return before !== undefined && hasRoom(panels, boxes, before) ? before : sideBySide(panels, boxes);
};

const hasRoom = (
  panels: readonly Panel[],
  boxes: readonly Box[],
  { width, height, panels: places }: Placing,
): boolean => {
  if (places.size !== panels.length) return false;
  let [left, waistLine]: [number, number | undefined] = [LEAST_MARGIN, undefined];
  for (const [i, panel] of panels.entries()) {
    const [place, box, waist] = [places.get(panel.name), boxes[i]!, waistOf(panel)];
    if (place === undefined || place.x + box.minX < left) return false;
    if (place.y + box.minY < LEAST_MARGIN || place.y + box.maxY > height - LEAST_MARGIN) return false;
    left = place.x + box.maxX + LEAST_GAP;
    if (waist === undefined) continue;
    waistLine ??= place.y + waist;
    if (Math.abs(place.y + waist - waistLine) > SAME_POINT) return false;
  }
  return left - LEAST_GAP <= width - LEAST_MARGIN;
};

const sideBySide = (panels: readonly Panel[], boxes: readonly Box[]): Placing => {
  const waists = panels.map((panel, i) => {
    const { minY, maxY } = boxes[i]!;
    return waistOf(panel) ?? (minY + maxY) / 2;
  });
  const above = Math.max(0, ...boxes.map(({ minY }, i) => waists[i]! - minY));
  const below = Math.max(0, ...boxes.map(({ maxY }, i) => maxY - waists[i]!));
  const waistLine = upTo(MARGIN + above);
  let left = MARGIN;
  const placed = boxes.map((box, i): [string, Point] => {
    const x = left - box.minX;
    left = upTo(left + box.maxX - box.minX + GAP);
    return [panels[i]!.name, { x, y: waistLine - waists[i]! }];
  });
  return {
    panels: new Map(placed),
    width: upTo(left - GAP + MARGIN),
    height: upTo(waistLine + below + MARGIN),
  };
};
