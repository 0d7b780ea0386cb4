/** Raising or lowering levels and the shape around them, while nothing moves at the levels beside them. */

import { chordAt } from '../pattern/chord.ts';
import type { Finding } from '../pattern/finding.ts';
import { formatLength } from '../pattern/format-length.ts';
import { timesRound } from '../pattern/girth-at.ts';
import { findLevel } from '../pattern/look-up.ts';
import type { Panel } from '../pattern/panel.ts';
import type { Pattern, Units } from '../pattern/pattern.ts';
import { refuseCutting } from '../pattern/refuse-cutting.ts';
import { alterationFindings, alterPanels, isTrouble, type RedrawCutting, type Trouble } from './alter-panels.ts';
import { levelHeights, refuseNoLength, tooNear, type LevelHeight } from './heights/level-heights.ts';
import { refuseAmount } from './largest-amount.ts';
import { movePanelUpright } from './heights/move-panel-upright.ts';
import { planRaise, type RaiseLine, type RaisePlan } from './heights/plan-raise.ts';
import { raiseBetween, type RaiseZone } from './heights/raise-between.ts';
import { shapeChange, type ShapeChange } from './shape-change.ts';

export interface LineRaised extends ShapeChange {
  /** The levels that were to be raised, from the highest down, and where nothing moves. */
  readonly raised: readonly string[];
  readonly holds: RaisePlan['holds'];
  /** Millimetres, positive upwards. */
  readonly amount: number;
  readonly heights: readonly LevelHeight[];
  /** Round the body along the line on which each raised level lay, before and after. */
  readonly oldLines: readonly { readonly level: string; readonly before: number; readonly after: number }[];
}

export interface RaisedLine {
  readonly pattern: Pattern;
  readonly change: LineRaised;
  readonly findings: readonly Finding[];
}

/** The heights that may not come too near each other, with what they are called, from the highest down. */
const stopsOn = (panel: Panel, zone: RaiseZone, { levels, holds }: RaisePlan) => {
  const inside = panel.levels.filter(({ name, y }) => y > zone.above && y < zone.below && !levels.includes(name));
  const stops = [
    { name: holds.above, y: zone.above },
    ...levels.map((name, index) => ({ name, y: zone.levels[index]! })),
    ...inside,
    { name: holds.below, y: zone.below },
  ];
  return stops.toSorted((a, b) => a.y - b.y);
};

const attempt = (
  pattern: Pattern,
  plan: RaisePlan,
  amount: number,
  redrawCutting: RedrawCutting | undefined,
): readonly Panel[] | Trouble =>
  alterPanels(
    pattern,
    (panel) => {
      const zone = plan.zones.get(panel);
      if (zone === undefined) return panel;
      const room = amount > 0 ? zone.levels[0]! - zone.above : zone.below - zone.levels.at(-1)!;
      if (room <= Math.abs(amount)) {
        const [level, hold] = amount > 0 ? [plan.levels[0], plan.holds.above] : [plan.levels.at(-1), plan.holds.below];
        return `would have ${level} past ${hold}, only ${formatLength(room, pattern.units)} away`;
      }
      const amounts = raiseBetween(zone, -amount);
      const near = tooNear(stopsOn(panel, zone, plan), (y) => y + amounts.value(y), pattern.units);
      if (near !== undefined) return near;
      return movePanelUpright(panel, amounts, 'seams');
    },
    redrawCutting,
  );

/** A part that keeps less of its length than this shows where the seams begin to move. */
const SQUEEZED = 2 / 3;

/** One note where the part between a hold and the levels is squeezed so much that its seams bend quickly, as on the first panel. */
const squeezeFindings = ({ levels, holds, zones }: RaisePlan, amount: number, units: Units): Finding[] => {
  const [zone] = zones.values();
  if (zone === undefined) return [];
  const [level, hold] = amount > 0 ? [levels[0]!, holds.above] : [levels.at(-1)!, holds.below];
  const room = amount > 0 ? zone.levels[0]! - zone.above : zone.below - zone.levels.at(-1)!;
  const left = room - Math.abs(amount);
  if (left >= room * SQUEEZED) return [];
  return [
    {
      weight: 'note',
      kind: 'squeezed',
      where: `between ${hold} and ${level}`,
      message: `${formatLength(left, units)} is left of ${formatLength(room, units)}, so the seams bend quickly there`,
      cure: 'look at the seams; --hold with a level farther off spreads it over more of them',
    },
  ];
};

/** Round the body along the line on which a level lay before, or undefined where a panel does not reach it. */
const roundOldLine = (pattern: Pattern, before: Pattern, level: string): number | undefined => {
  let drawn = 0;
  for (const [index, panel] of pattern.panels.entries()) {
    const y = findLevel(before.panels[index]!, level)?.y;
    const chord = y === undefined ? undefined : chordAt(panel, y);
    if (chord === undefined && panel.gusset === undefined) return undefined;
    drawn += chord?.width ?? 0;
  }
  return drawn * timesRound(pattern);
};

/**
 * Raises named levels by one amount (mm, negative lowers them) with the shape around them: the points of both seams of every panel move
 * straight up, exactly by the amount at the levels and between them, less and less towards the holds, nothing beyond. So every panel
 * keeps its width at every level, to 0.002 mm; top and bottom edges and what lies beyond the holds are the very same objects, and the
 * opposite amount undoes it. Notches in the part that moves go along; grainline, bones and artwork stay. `redrawCutting` draws the
 * cutting line of a panel again that has one.
 *
 * @throws usage for levels, holds and amounts that do not fit; input for panels that still carry allowance, were never labelled or lack a
 * level that moves; impossible, with the largest amount that works, where a level would pass a hold or come within 5 mm of another.
 */
export const raiseLine = (pattern: Pattern, what: RaiseLine, redrawCutting?: RedrawCutting): RaisedLine => {
  refuseCutting(pattern);
  refuseNoLength(what.amount);
  const plan = planRaise(pattern, what);
  const tryOut = (amount: number): readonly Panel[] | Trouble => attempt(pattern, plan, amount, redrawCutting);
  const panels = tryOut(what.amount);
  if (isTrouble(panels)) {
    throw refuseAmount(panels, what.amount, pattern.units, (amount) => !isTrouble(tryOut(amount)));
  }
  const raised = { ...pattern, panels };
  return {
    pattern: raised,
    change: {
      raised: plan.levels,
      holds: plan.holds,
      amount: what.amount,
      heights: levelHeights(pattern, raised),
      oldLines: plan.levels.flatMap((level) => {
        const [before, after] = [pattern, raised].map((each) => roundOldLine(each, pattern, level));
        return before === undefined || after === undefined ? [] : [{ level, before, after }];
      }),
      ...shapeChange(pattern, raised),
    },
    findings: [...squeezeFindings(plan, what.amount, pattern.units), ...alterationFindings(pattern, raised)],
  };
};
