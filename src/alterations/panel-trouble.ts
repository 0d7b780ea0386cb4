import { pathLength } from '../geometry/arc-length.ts';
import { selfCrossings } from '../geometry/intersect.ts';
import { SAME_POINT } from '../geometry/tolerance.ts';
import { chordAt } from '../pattern/chord.ts';
import { formatLength } from '../pattern/format-length.ts';
import { findLevel, seamSidesOf } from '../pattern/look-up.ts';
import { outlineOf } from '../pattern/outline.ts';
import type { Panel } from '../pattern/panel.ts';
import type { Units } from '../pattern/pattern.ts';

/** The narrowest panel and the shortest seam that can be sewn at all. */
const NARROWEST = 10;
const SHORTEST = 10;

/** A gusset narrows to nothing at its apex. */
const narrowest = (panel: Panel): number => (panel.gusset ? SAME_POINT : NARROWEST);

const levelTrouble = (before: Panel, after: Panel, units: Units): string | undefined => {
  for (const level of before.levels) {
    const [old, now] = [chordAt(before, level.y), chordAt(after, findLevel(after, level.name)?.y ?? level.y)];
    if (!old) continue;
    if (!now) return `would lose its level ${level.name}`;
    if (now.width >= narrowest(after) || now.width >= old.width - SAME_POINT) continue;
    return now.width <= 0
      ? `would have no width left at ${level.name}`
      : `would be under ${formatLength(NARROWEST, units)} wide at ${level.name}`;
  }
  return undefined;
};

const seamTrouble = (before: Panel, after: Panel, units: Units): string | undefined => {
  const [old, now] = [seamSidesOf(before), seamSidesOf(after)];
  for (const side of ['front', 'back'] as const) {
    if (!old || !now || old[side].path === now[side].path) continue;
    const [was, is] = [pathLength(old[side].path), pathLength(now[side].path)];
    if (is < SHORTEST && is < was - SAME_POINT) {
      return `would have a seam ${now[side].name} under ${formatLength(SHORTEST, units)} long`;
    }
  }
  return undefined;
};

/**
 * Why an altered panel cannot be sewn, in words that follow its name, or undefined: it would lose a level, be too narrow at one,
 * have too short a seam, or cross itself. What was already so before, and is no worse, is no trouble.
 */
export const panelTrouble = (before: Panel, after: Panel, units: Units): string | undefined => {
  const trouble = levelTrouble(before, after, units) ?? seamTrouble(before, after, units);
  if (trouble) return trouble;
  const crossings = selfCrossings(outlineOf(after)).length;
  return crossings > 0 && crossings > selfCrossings(outlineOf(before)).length ? 'would cross itself' : undefined;
};
