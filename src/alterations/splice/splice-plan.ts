/**
 * Which of two versions rules at which height of a panel, and how the heights of the two correspond.
 *
 * Heights are told on this panel. `lift` says how much lower (y down) the same place lies on the other, laid waist on waist: exact at
 * levels that both have, blended between, constant beyond. With the weight w of the other the result lies at y + w(y) lift(y): where w
 * is 0 it is this panel to the point, where w is 1 the other one.
 */

import { monotoneBlend, type Blend, type Knot } from '../../geometry/monotone-blend.ts';
import { SAME_POINT } from '../../geometry/tolerance.ts';
import { StaywrightError } from '../../errors.ts';
import type { LevelRef } from '../../pattern/level-ref.ts';
import { levelY, levelYIfAny } from '../../pattern/level-y.ts';
import { findLevel } from '../../pattern/look-up.ts';
import type { PanelPair } from './align-panels.ts';

export type Source = 'this' | 'other';

export interface SourceAt {
  readonly level: LevelRef;
  readonly source: Source;
}

/** What comes from the other version: all above or below a level, or what lies at some of the levels. */
export type SpliceWhere =
  | { readonly kind: 'above' | 'below'; readonly level: LevelRef }
  | { readonly kind: 'levels'; readonly at: readonly SourceAt[] };

/** A stretch of heights, from the upper to the lower, over which one version turns into the other. */
export interface Mix {
  readonly from: number;
  readonly to: number;
}

export interface SplicePlan {
  /** Which version has the top edge. */
  readonly first: Source;
  /** Which has the bottom edge. */
  readonly last: Source;
  /** From the top down; from one to the next the other version rules. */
  readonly mixes: readonly Mix[];
  readonly weight: Blend;
  readonly lift: Blend;
  /** Heights at which `lift` starts another cubic. */
  readonly liftBreaks: readonly number[];
}

/** Steps towards a height: a mark needs to be put on the right side of a blend, no nearer. */
const ROUNDS = 12;

const liftKnots = ({ mine, other }: PanelPair): Knot[] => {
  const knots: Knot[] = [];
  for (const { name, y } of mine.levels) {
    const theirs = findLevel(other, name)?.y;
    if (theirs === undefined || knots.some(({ at }) => Math.abs(at - y) < SAME_POINT)) continue;
    knots.push({ at: y, value: Math.abs(theirs - y) < SAME_POINT ? 0 : theirs - y });
  }
  return knots;
};

const WEIGHT: Readonly<Record<Source, number>> = { this: 0, other: 1 };

const levelsKnots = (pair: PanelPair, at: readonly SourceAt[], name: string): Knot[] => {
  const knots = at.map(({ level, source }) => ({ at: levelY(pair.mine, level), value: WEIGHT[source], level }));
  for (const [index, knot] of knots.entries()) {
    if (levelYIfAny(pair.other, knot.level) === undefined) {
      throw new StaywrightError('input', `has no level ${knot.level.name}`, {
        where: `${name}, panel ${pair.other.name}`,
        hint: 'name it there, or leave it out of --size',
      });
    }
    const twin = knots.slice(0, index).find((each) => Math.abs(each.at - knot.at) <= SAME_POINT);
    if (!twin) continue;
    throw new StaywrightError('usage', `${twin.level.text} and ${knot.level.text} are one level`, {
      where: '--size',
      hint: 'give each level one source',
    });
  }
  return knots.map(({ at: y, value }) => ({ at: y, value }));
};

const weightKnots = (pair: PanelPair, where: SpliceWhere, blend: number, name: string): Knot[] => {
  if (where.kind === 'levels') return levelsKnots(pair, where.at, name);
  const y = levelY(pair.mine, where.level);
  return [
    { at: y, value: 0 },
    { at: y + (where.kind === 'above' ? -blend : blend), value: 1 },
  ];
};

/**
 * The plan for one panel. `blend`, in millimetres, counts for `above` and `below` alone: nothing of the other at the level, all of it
 * from `blend` on.
 *
 * @throws usage for a level that is not there, or two at one height; input for one that the other version lacks.
 */
export const splicePlan = (pair: PanelPair, where: SpliceWhere, blend: number, name: string): SplicePlan => {
  const knots = weightKnots(pair, where, blend, name).toSorted((a, b) => a.at - b.at);
  const mixes = knots.slice(1).flatMap((knot, i): Mix[] => {
    const before = knots[i]!;
    return before.value === knot.value ? [] : [{ from: before.at, to: knot.at }];
  });
  const lifts = liftKnots(pair);
  return {
    first: knots[0]!.value === 0 ? 'this' : 'other',
    last: knots.at(-1)!.value === 0 ? 'this' : 'other',
    mixes,
    weight: monotoneBlend(knots, 'flat'),
    lift: monotoneBlend(lifts, 'flat'),
    liftBreaks: lifts.map(({ at }) => at),
  };
};

/** Which version rules at a height outside all mixes; `mix` inside one. */
export const rulerAt = ({ first, mixes }: SplicePlan, y: number): Source | 'mix' => {
  if (mixes.some(({ from, to }) => y > from + SAME_POINT && y < to - SAME_POINT)) return 'mix';
  const passed = mixes.filter(({ to }) => y >= to - SAME_POINT).length;
  return (passed % 2 === 0) === (first === 'this') ? 'this' : 'other';
};

/** Where a place at this height of this panel comes to lie. */
export const splicedY = ({ weight, lift }: SplicePlan, y: number): number => y + weight.value(y) * lift.value(y);

/** A height of the other told on this panel, good outside the blends, where the other rules. */
export const heightHere = ({ lift }: SplicePlan, y: number): number => {
  let here = y;
  for (let i = 0; i < ROUNDS; i += 1) here = y - lift.value(here);
  return here;
};
