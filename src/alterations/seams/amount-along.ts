/** How far one edge of a panel moves at each height: the maker's amounts at levels, blended in between. */

import { monotoneBlend, type Blend, type Knot } from '../../geometry/monotone-blend.ts';
import { pathEnd, pathStart } from '../../geometry/path.ts';
import { SAME_POINT } from '../../geometry/tolerance.ts';
import { StaywrightError } from '../../errors.ts';
import type { LevelRef } from '../../pattern/level-ref.ts';
import { levelY } from '../../pattern/level-y.ts';
import type { Edge, Panel } from '../../pattern/panel.ts';

/** Which part of a seam an alteration applies to. */
export type Where =
  | { readonly kind: 'whole' }
  | { readonly kind: 'above' | 'below'; readonly level: LevelRef; readonly fullAt?: LevelRef }
  | { readonly kind: 'between'; readonly levels: readonly [LevelRef, LevelRef]; readonly fullAt?: LevelRef };

export interface AmountAt {
  readonly level: LevelRef;
  readonly amount: number;
}

/** An amount in millimetres for every height `y`, smooth; between neighbouring `breaks`, and beyond them, it is one cubic in `y`. */
export interface AmountAlong extends Blend {
  readonly breaks: readonly number[];
}

export const scaleAmount = (along: AmountAlong, factor: number): AmountAlong => ({
  value: (y) => along.value(y) * factor,
  slope: (y) => along.slope(y) * factor,
  breaks: along.breaks,
});

const throughKnots = (knots: readonly Knot[]): AmountAlong => ({
  ...monotoneBlend(knots, 'flat'),
  breaks: knots.length < 2 ? [] : knots.map(({ at }) => at).toSorted((a, b) => a - b),
});

/** The named level of the panel next to `y` on the way up (-1) or down (+1), or else the end of the edge. */
const nextStop = (panel: Panel, edge: Edge, y: number, way: -1 | 1): number => {
  const ys = panel.levels.map((level) => level.y).filter((other) => (other - y) * way > SAME_POINT);
  if (ys.length > 0) return way < 0 ? Math.max(...ys) : Math.min(...ys);
  const ends = [pathStart(edge.path).y, pathEnd(edge.path).y];
  return way < 0 ? Math.min(...ends) : Math.max(...ends);
};

const refuseFullAt = (fullAt: LevelRef, where: string): never => {
  throw new StaywrightError('usage', `${fullAt.text} does not lie ${where}`, {
    where: '--full-at',
    hint: 'give a level on the part that moves',
  });
};

const oneSided = (
  panel: Panel,
  edge: Edge,
  amount: number,
  where: Where & { kind: 'above' | 'below' },
): AmountAlong => {
  const way = where.kind === 'above' ? -1 : 1;
  const zero = levelY(panel, where.level);
  const full = where.fullAt ? levelY(panel, where.fullAt) : nextStop(panel, edge, zero, way);
  if ((full - zero) * way > SAME_POINT) {
    return throughKnots([
      { at: zero, value: 0 },
      { at: full, value: amount },
    ]);
  }
  if (where.fullAt) return refuseFullAt(where.fullAt, `${where.kind} ${where.level.text}`);
  return throughKnots([{ at: zero, value: 0 }]);
};

const betweenLevels = (panel: Panel, amount: number, where: Where & { kind: 'between' }): AmountAlong => {
  const [high, low] = where.levels.map((level) => levelY(panel, level)).toSorted((a, b) => a - b) as [number, number];
  const names = where.levels.map(({ text }) => text);
  if (low - high <= SAME_POINT) {
    throw new StaywrightError('usage', `${names.join(' and ')} are one level`, {
      where: '--between',
      hint: 'give two levels, such as bust,hip',
    });
  }
  const inside = (y: number): boolean => y - high > SAME_POINT && low - y > SAME_POINT;
  const named = panel.levels.map((level) => level.y).filter(inside);
  let full = named.length > 0 ? named : [(high + low) / 2];
  if (where.fullAt) {
    full = [levelY(panel, where.fullAt)];
    if (!inside(full[0]!)) return refuseFullAt(where.fullAt, `between ${names.join(' and ')}`);
  }
  const ends = [high, low].map((at) => ({ at, value: 0 }));
  return throughKnots([...ends, ...full.map((at) => ({ at, value: amount }))]);
};

/**
 * One amount on the part of the edge that `where` names: nothing at the level it starts from, the full amount from the next named
 * level on (or from `fullAt`, or the end of the edge), flat at both ends of the taper so that the line leaves without a kink.
 *
 * @throws usage for an unknown level, or a `fullAt` outside the part that moves.
 */
export const amountAlong = (panel: Panel, edge: Edge, amount: number, where: Where): AmountAlong => {
  if (where.kind === 'whole') return throughKnots([{ at: 0, value: amount }]);
  return where.kind === 'between' ? betweenLevels(panel, amount, where) : oneSided(panel, edge, amount, where);
};

/**
 * An amount of its own at each level, blended between and constant beyond the outermost.
 *
 * @throws usage for an unknown level, or two amounts at one height.
 */
export const amountsAtLevels = (panel: Panel, amounts: readonly AmountAt[]): AmountAlong => {
  const knots = amounts.map(({ level, amount }) => ({ at: levelY(panel, level), value: amount, text: level.text }));
  for (const [index, knot] of knots.entries()) {
    const twin = knots.slice(0, index).find((other) => Math.abs(other.at - knot.at) <= SAME_POINT);
    if (!twin) continue;
    throw new StaywrightError('usage', `${twin.text} and ${knot.text} are one level on panel ${panel.name}`, {
      where: '--at',
      hint: 'give each level one amount',
    });
  }
  return throughKnots(knots);
};
