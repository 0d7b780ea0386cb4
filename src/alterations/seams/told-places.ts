/** The heights at which a report tells what a seam moved: named levels, and where the full amount lies if that is none of them. */

import { SAME_POINT } from '../../geometry/tolerance.ts';
import { typedLength } from '../../pattern/typed-length.ts';
import type { LevelRef } from '../../pattern/level-ref.ts';
import { levelYIfAny } from '../../pattern/level-y.ts';
import { findLevel, levelNames } from '../../pattern/look-up.ts';
import type { Panel } from '../../pattern/panel.ts';
import type { Pattern } from '../../pattern/pattern.ts';
import type { Where } from './amount-along.ts';
import type { MoveSeams } from '../move-seams-options.ts';

export interface ToldPlace {
  readonly text: string;
  /** Its height on a panel, or undefined where that panel does not have it. */
  readonly y: (panel: Panel) => number | undefined;
}

/** From the highest down as they lie on the first panel. */
export const toldPlaces = (pattern: Pattern, what: MoveSeams): readonly ToldPlace[] => {
  const [first] = pattern.panels;
  if (first === undefined) return [];
  const named = levelNames(pattern).map((name): ToldPlace => ({ text: name, y: (panel) => findLevel(panel, name)?.y }));
  const heights = named.map(({ y }) => y(first));
  const others = unnamedPlaces(pattern, first, what).filter((place) => {
    const height = place.y(first);
    return height !== undefined && !heights.some((y) => y !== undefined && Math.abs(y - height) <= SAME_POINT);
  });
  if (others.length === 0) return named;
  return [...named, ...others].toSorted((a, b) => (a.y(first) ?? 0) - (b.y(first) ?? 0));
};

const placeAt = (ref: LevelRef): ToldPlace => ({ text: ref.text, y: (panel) => levelYIfAny(panel, ref) });

const unnamedPlaces = (pattern: Pattern, first: Panel, { by, where }: MoveSeams): ToldPlace[] => {
  if (by.kind === 'at') return by.at.map(({ level }) => placeAt(level));
  if (where.kind === 'whole') return [];
  if (where.fullAt !== undefined) return [placeAt(where.fullAt)];
  return where.kind === 'between' ? halfWay(pattern, first, where) : [];
};

/** Between two levels with none between them, the full amount is half-way: called by how far from the waist that is. */
const halfWay = (pattern: Pattern, first: Panel, { levels }: Where & { kind: 'between' }): ToldPlace[] => {
  const ends = (panel: Panel): number[] => levels.flatMap((level) => levelYIfAny(panel, level) ?? []);
  const middle = (panel: Panel): number | undefined => {
    const [one, other] = ends(panel);
    return one === undefined || other === undefined ? undefined : (one + other) / 2;
  };
  const [high = 0, low = 0] = ends(first).toSorted((a, b) => a - b);
  const waist = findLevel(first, 'waist')?.y;
  const at = middle(first);
  const between = first.levels.some(({ y }) => y - high > SAME_POINT && low - y > SAME_POINT);
  if (between || at === undefined || waist === undefined) return [];
  const away = typedLength(Math.abs(waist - at) + SAME_POINT, pattern.units);
  return [{ text: `waist${at < waist ? '+' : '-'}${away.text}`, y: middle }];
};
