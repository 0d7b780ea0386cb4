import { joinBoxes, pathBox, type Box } from '../geometry/box.ts';
import type { Panel } from '../pattern/panel.ts';
import { waistOf } from '../pattern/look-up.ts';
import { outlineOf } from '../pattern/outline.ts';

const MARGIN = 20;
const GAP = 30;
/** Places are whole steps, so that a panel that grows by a little leaves its neighbours where they are. */
const STEP = 5;

export interface Placing {
  /** One for each panel: where its own origin stands on the sheet, and its box in its own coordinates. */
  readonly panels: readonly { readonly x: number; readonly y: number; readonly box: Box }[];
  readonly width: number;
  readonly height: number;
}

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

/** Panels side by side in their order, lined up at the waist; a panel without a waist hangs by its middle. */
export const placePanels = (panels: readonly Panel[]): Placing => {
  const boxes = panels.map(boxOf);
  const waists = panels.map((panel, i) => {
    const { minY, maxY } = boxes[i]!;
    return waistOf(panel) ?? (minY + maxY) / 2;
  });
  const above = Math.max(0, ...boxes.map(({ minY }, i) => waists[i]! - minY));
  const below = Math.max(0, ...boxes.map(({ maxY }, i) => maxY - waists[i]!));
  const waistLine = upTo(MARGIN + above);
  let left = MARGIN;
  const placed = boxes.map((box, i) => {
    const x = left - box.minX;
    left = upTo(left + box.maxX - box.minX + GAP);
    return { x, y: waistLine - waists[i]!, box };
  });
  return { panels: placed, width: upTo(left - GAP + MARGIN), height: upTo(waistLine + below + MARGIN) };
};
