/** How high levels lie, before and after they moved straight up or down, and what must not happen to them. */

import { StaywrightError } from '../../errors.ts';
import { SAME_POINT } from '../../geometry/tolerance.ts';
import { formatLength } from '../../pattern/format-length.ts';
import { findLevel, levelNames, waistOf } from '../../pattern/look-up.ts';
import type { Pattern, Units } from '../../pattern/pattern.ts';

/** Two levels nearer than this leave no room for a shape between them. */
const NEAREST = 5;

/** A level's height above the line on which the waist lay before, in millimetres, on the first panel that has it. */
export interface LevelHeight {
  readonly level: string;
  readonly before: number;
  readonly after: number;
}

export const levelHeights = (before: Pattern, after: Pattern): LevelHeight[] =>
  levelNames(after).flatMap((name) => {
    const index = before.panels.findIndex((panel) => findLevel(panel, name) !== undefined);
    const panel = before.panels[index];
    const [was, is] = [panel, after.panels[index]].map((each) => each && findLevel(each, name)?.y);
    const waist = panel && waistOf(panel);
    if (was === undefined || is === undefined || waist === undefined) return [];
    return [{ level: name, before: waist - was, after: waist - is }];
  });

interface Stop {
  readonly name: string;
  readonly y: number;
}

/** What is wrong where two neighbouring heights, from the highest down, end up within 5 mm and nearer than they were; else undefined. */
export const tooNear = (stops: readonly Stop[], moved: (y: number) => number, units: Units): string | undefined => {
  for (const [index, low] of stops.slice(1).entries()) {
    const high = stops[index]!;
    const [was, is] = [low.y - high.y, moved(low.y) - moved(high.y)];
    // On a gusset, whose sides slant, a level lies a little off its place under the waist: the two are one.
    if (high.name !== low.name && is < NEAREST && is < was - SAME_POINT) {
      return `would have ${high.name} and ${low.name} within ${formatLength(NEAREST, units)}`;
    }
  }
  return undefined;
};

/** @throws usage for an amount that is no length, or none. */
export const refuseNoLength = (amount: number): void => {
  if (Number.isFinite(amount) && Math.abs(amount) >= SAME_POINT) return;
  const message = Number.isFinite(amount) ? 'moves nothing' : 'is not a length';
  throw new StaywrightError('usage', message, { where: '--amount', hint: 'give a length such as 12mm' });
};
