import { isInside } from '../geometry/area.ts';
import { crossHorizontal } from '../geometry/intersect.ts';
import { point } from '../geometry/point.ts';
import { chordAt } from './chord.ts';
import { outlineOf } from './outline.ts';
import type { Panel } from './panel.ts';

/** A horizontal line across a panel: from its front seam to its back seam, or only across the widest part of it that there is. */
export interface LevelSpan {
  readonly fromX: number;
  readonly toX: number;
  readonly meetsSeams: boolean;
}

/** The line across a panel at height `y`; undefined where the panel does not reach that height. */
export const levelSpan = (panel: Panel, y: number): LevelSpan | undefined => {
  const chord = chordAt(panel, y);
  if (chord !== undefined && chord.toX > chord.fromX) return { fromX: chord.fromX, toX: chord.toX, meetsSeams: true };
  const outline = outlineOf(panel);
  const xs = crossHorizontal(outline, y)
    .map(({ point: p }) => p.x)
    .toSorted((a, b) => a - b);
  const spans = xs
    .slice(1)
    .map((toX, at) => ({ fromX: xs[at]!, toX, meetsSeams: false }))
    .filter(({ fromX, toX }) => isInside(outline, point((fromX + toX) / 2, y)));
  return spans.toSorted((a, b) => b.toX - b.fromX - (a.toX - a.fromX))[0];
};
