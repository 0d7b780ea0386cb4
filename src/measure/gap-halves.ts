/** Where the two halves of a body differ: how far each laced edge stops short of the centre back. */

import { girthAt } from '../pattern/girth-at.ts';
import type { LevelRef } from '../pattern/level-ref.ts';
import { SIDES, type Side } from '../pattern/panel.ts';
import type { Pattern } from '../pattern/pattern.ts';

/** From centre front to centre back, in millimetres. */
export type BodyHalves = Readonly<Record<Side, number>>;

export interface GapHalf {
  readonly side: Side;
  readonly body: number;
  readonly pattern: number;
  /** From the centre back of the laced body to the edge of this side; negative where the edge would pass it. */
  readonly fromCentre: number;
  /** What to add to the paper on this side, negative to take away. */
  readonly needs: number;
}

/** The width of each half at a level; a half pattern is the same on both. */
const patternHalves = (pattern: Pattern, level: LevelRef): BodyHalves => {
  const { girth, panels } = girthAt(pattern, level);
  const of = (side: Side): number =>
    pattern.panels.reduce((sum, panel, at) => sum + (panel.side === side ? panels[at]!.width : 0), 0);
  return pattern.panels.every(({ side }) => side !== undefined)
    ? { left: of('left'), right: of('right') }
    : { left: girth / 2, right: girth / 2 };
};

/** Both halves at one level; reduction and opening are shared equally between them, so that the opening wanted lies in the middle. */
export const gapHalves = (
  pattern: Pattern,
  level: LevelRef,
  halves: BodyHalves,
  reduction: number,
  gap: number,
): readonly GapHalf[] => {
  const widths = patternHalves(pattern, level);
  return SIDES.map((side) => {
    const fromCentre = halves[side] - reduction / 2 - widths[side];
    return { side, body: halves[side], pattern: widths[side], fromCentre, needs: fromCentre - gap / 2 };
  });
};
