/** What moving seams did, in figures. */

import { pathStart } from '../../geometry/path.ts';
import { distance, samePoint, type Point } from '../../geometry/point.ts';
import { chordAt } from '../../pattern/chord.ts';
import { timesRound } from '../../pattern/girth-at.ts';
import { sidesOf } from '../../pattern/look-up.ts';
import type { Panel } from '../../pattern/panel.ts';
import type { Pattern } from '../../pattern/pattern.ts';
import type { MoveSeams } from '../move-seams-options.ts';
import { extremes, type SeamPlan } from './plan-moves.ts';
import { edgeChanges, halfOf, type EdgeChange, type GirthChange } from '../shape-change.ts';
import { toldPlaces, type ToldPlace } from './told-places.ts';

export interface SeamMove {
  readonly seam: string;
  /** Stitching lines of this seam that are drawn: on one half for pairs, on both for single panels. */
  readonly linesDrawn: number;
  readonly linesRoundBody: number;
  /** The most that its lines move anywhere, in the direction asked for; with the sign of an amount. */
  readonly most: number;
  /** What each line moves at each told place in the direction asked for, and, measured along the level, what that makes round the body. */
  readonly levels: readonly { readonly level: string; readonly amount: number; readonly roundBody?: number }[];
}

/** One corner of a panel that lies elsewhere now. */
interface MovedEnd {
  readonly panel: string;
  readonly corner: 'top-front' | 'top-back' | 'bottom-back' | 'bottom-front';
  readonly before: Point;
  readonly after: Point;
  readonly distance: number;
}

export interface SeamsChange {
  readonly direction: 'in' | 'out';
  /** Whether amounts were measured at right angles to the seam. */
  readonly square: boolean;
  readonly seams: readonly SeamMove[];
  /** Round the body at each of those places that every panel reaches. */
  readonly girth: readonly GirthChange[];
  readonly ends: readonly MovedEnd[];
  readonly edges: readonly EdgeChange[];
}

/** In the order in which each starts one of the four edges: top, back, bottom, front. */
const CORNERS = { top: 'top-front', back: 'top-back', bottom: 'bottom-back', front: 'bottom-front' } as const;

const movedEnds = (before: Panel, after: Panel): MovedEnd[] => {
  const [old, now] = [sidesOf(before), sidesOf(after)];
  if (!old || !now) return [];
  return (['top', 'back', 'bottom', 'front'] as const).flatMap((side) => {
    const [from, to] = [pathStart(old[side].path), pathStart(now[side].path)];
    if (samePoint(from, to)) return [];
    return [{ panel: after.name, corner: CORNERS[side], before: from, after: to, distance: distance(from, to) }];
  });
};

/** Length round the body at a place as it lay `before`, or undefined where a panel does not have or reach it. */
const girthOf = (pattern: Pattern, place: ToldPlace, before: Pattern): number | undefined => {
  let half = 0;
  for (const [index, panel] of pattern.panels.entries()) {
    const y = place.y(before.panels[index]!);
    const chord = y === undefined ? undefined : chordAt(panel, y);
    if (!chord && panel.gusset) continue;
    if (!chord) return undefined;
    half += chord.width;
  }
  return half * timesRound(pattern);
};

const greatest = (amounts: readonly number[]): number =>
  amounts.reduce((best, amount) => (Math.abs(amount) > Math.abs(best) ? amount : best), 0);

const seamMove = (
  pattern: Pattern,
  { seam, along }: SeamPlan,
  places: readonly ToldPlace[],
  square: boolean,
): SeamMove => {
  const linesRoundBody = seam.edges.length * timesRound(pattern);
  const first = seam.edges[0]!;
  const amounts = along(first);
  return {
    seam: seam.name,
    linesDrawn: seam.edges.length,
    linesRoundBody,
    most: greatest(seam.edges.flatMap((seamEdge) => extremes(seamEdge, along(seamEdge)))),
    levels: places.flatMap((place) => {
      const y = place.y(first.panel);
      if (y === undefined) return [];
      const amount = amounts.value(y);
      return [{ level: place.text, amount, ...(square ? {} : { roundBody: amount * linesRoundBody }) }];
    }),
  };
};

/** All figures of a change from one pattern to another with the same panels. */
export const seamFigures = (
  before: Pattern,
  after: Pattern,
  what: MoveSeams,
  plans: readonly SeamPlan[],
): SeamsChange => {
  const places = toldPlaces(before, what);
  return {
    direction: what.direction,
    square: what.square,
    seams: plans.map((plan) => seamMove(before, plan, places, what.square)),
    girth: places.flatMap((place) => {
      const [was, is] = [girthOf(before, place, before), girthOf(after, place, before)];
      return was === undefined || is === undefined
        ? []
        : [{ level: place.text, before: was, after: is, ...halfOf(after) }];
    }),
    ends: after.panels.flatMap((panel, index) => movedEnds(before.panels[index]!, panel)),
    edges: edgeChanges(before, after),
  };
};
