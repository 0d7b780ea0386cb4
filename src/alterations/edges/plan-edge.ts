/** One smooth line of amounts across all panels: what each seam is raised by, and how fast that changes there. */

import { pathLength } from '../../geometry/arc-length.ts';
import { monotoneBlend, type Knot } from '../../geometry/monotone-blend.ts';
import { reversePath } from '../../geometry/reverse-path.ts';
import { chordAt } from '../../pattern/chord.ts';
import { findLevel, sidesOf, type PanelSides } from '../../pattern/look-up.ts';
import { SIDES, type Panel, type Side } from '../../pattern/panel.ts';
import type { Pattern } from '../../pattern/pattern.ts';
import { lineCorner, type LineCorner } from './line-corner.ts';
import { slideCorners } from './slide-corners.ts';
import type { AmountOnEdge, EdgeEnds } from './slide-edge.ts';
import type { RedrawEdge } from '../redraw-edge-options.ts';

/** A seam as the edge passes it. */
export interface SeamOnLine {
  readonly seam: string;
  readonly side?: Side;
  /** Millimetres upwards along the seam. */
  readonly raised: number;
  readonly named: boolean;
  readonly panels: readonly string[];
}

interface PanelPlan {
  readonly ends: EdgeEnds;
  readonly amount: AmountOnEdge;
}

export interface EdgePlan {
  readonly seams: readonly SeamOnLine[];
  /** By the panel's name. */
  readonly panels: ReadonlyMap<string, PanelPlan>;
}

interface Laid {
  readonly panel: Panel;
  readonly sides: PanelSides;
}

/** A place on the laid-out line: the seam behind one panel and before the next. */
interface Stop {
  readonly seam: string;
  readonly at: number;
  readonly panels: readonly string[];
}

/**
 * How wide each panel counts: along the level nearest to the edge that all have, which redrawing the edge leaves alone, so that the opposite
 * amounts fall at the same places; along the edge itself where there is no such level.
 */
const widthsOf = (laid: readonly Laid[], edge: 'top' | 'bottom'): number[] => {
  const [first] = laid;
  const levels = edge === 'top' ? first!.panel.levels : first!.panel.levels.toReversed();
  for (const { name } of levels) {
    const widths = laid.flatMap(({ panel }) => {
      const level = findLevel(panel, name);
      const chord = level && chordAt(panel, level.y);
      return chord && chord.width > 0 ? [chord.width] : [];
    });
    if (widths.length === laid.length) return widths;
  }
  return laid.map(({ sides }) => pathLength(sides[edge].path));
};

/** Where the edge passes seams, its panels laid side by side from the front. */
const stopsOf = (laid: readonly Laid[], edge: 'top' | 'bottom'): Stop[] => {
  const widths = widthsOf(laid, edge);
  let at = 0;
  const stops: Stop[] = [{ seam: laid[0]!.sides.front.name, at, panels: [laid[0]!.panel.name] }];
  for (const [index, { panel, sides }] of laid.entries()) {
    at += widths[index]!;
    const next = laid[index + 1];
    const mates = next?.sides.front.name === sides.back.name ? [next.panel.name] : [];
    stops.push({ seam: sides.back.name, at, panels: [panel.name, ...mates] });
  }
  return stops;
};

/** The named amounts at their places; an end of the line that has none of its own stays where it is. */
const knotsOf = (stops: readonly Stop[], named: ReadonlyMap<string, number>): Knot[] =>
  stops.flatMap(({ seam, at }, index) => {
    const value = named.get(seam) ?? (index === 0 || index === stops.length - 1 ? 0 : undefined);
    return value === undefined ? [] : [{ at, value }];
  });

/** A cubic from one value to another with the given slopes, over 0 to 1. */
const between = (from: number, to: number, first: number, last: number): AmountOnEdge => ({
  value: (u) => {
    const v = 1 - u;
    return from + (to - from) * u * u * (3 - 2 * u) + u * v * (first * v - last * u);
  },
  slope: (u) => {
    const v = 1 - u;
    return 6 * u * v * (to - from) + first * v * (v - 2 * u) + last * u * (u - 2 * v);
  },
});

interface PanelCorners {
  readonly front?: LineCorner | undefined;
  readonly back?: LineCorner | undefined;
}

/** The most that a line is turned to keep its angles at a seam, about 10 degrees: past a corner of the seam it would swing up and down. */
const MOST_TURNED = Math.PI / 18;

/**
 * What each of the corners at one seam is turned so that together they come to what they were: sliding along seams that are not shaped
 * alike alone would leave a peak or a dip.
 */
const evenTurn = (corners: readonly (LineCorner | undefined)[]): number => {
  const there = corners.filter((corner) => corner !== undefined);
  const each = there.reduce((sum, { turned }) => sum + turned, 0) / Math.max(1, there.length);
  return -Math.min(MOST_TURNED, Math.max(-MOST_TURNED, each));
};

const planSide = (laid: readonly Laid[], what: RedrawEdge, named: ReadonlyMap<string, number>): EdgePlan => {
  const stops = stopsOf(laid, what.edge);
  const blend = monotoneBlend(knotsOf(stops, named), 'flat');
  const raised = stops.map(({ at }) => blend.value(at));
  const outward = what.edge === 'top' ? 1 : -1;
  const endsOf = (index: number): EdgeEnds => ({
    front: outward * raised[index]! || 0,
    back: outward * raised[index + 1]! || 0,
  });
  const corners = laid.map(({ panel, sides }, index): PanelCorners => {
    const slid = slideCorners(panel, what.edge, endsOf(index));
    if (typeof slid === 'string') return {};
    const path = what.edge === 'top' ? sides.top.path : reversePath(sides.bottom.path);
    const wide = stops[index + 1]!.at - stops[index]!.at;
    const corner = (end: 'front' | 'back', stop: number): LineCorner | undefined =>
      lineCorner(slid, what.edge, end, path, outward * raised[stop]!, outward * blend.slope(stops[stop]!.at) * wide);
    return { front: corner('front', index), back: corner('back', index + 1) };
  });
  const turns = stops.map((_, stop) => evenTurn([corners[stop - 1]?.back, corners[stop]?.front]));
  const { side } = laid[0]!.panel;
  return {
    seams: stops.map(({ seam, panels }, index) => ({
      seam,
      ...(side === undefined ? {} : { side }),
      raised: raised[index]!,
      named: named.has(seam),
      panels,
    })),
    panels: new Map(
      laid.map(({ panel }, index) => {
        const ends = endsOf(index);
        const { front, back } = corners[index]!;
        const first = front?.slopeTurned(turns[index]!) ?? 0;
        const last = back?.slopeTurned(turns[index + 1]!) ?? 0;
        return [panel.name, { ends, amount: between(ends.front, ends.back, first, last) }];
      }),
    ),
  };
};

/**
 * The amounts at all seams and along every panel's edge: those of the named seams exactly, blended between them over the widths of the panels
 * without a peak or a dip of its own, flat at its two ends. Left and right are laid out each for itself; gussets are passed over.
 */
export const planEdge = (pattern: Pattern, what: RedrawEdge): EdgePlan => {
  const named = new Map(what.at.map(({ seam, amount }) => [seam, amount]));
  const laid = pattern.panels.flatMap((panel) => {
    const sides = sidesOf(panel);
    return sides ? [{ panel, sides }] : [];
  });
  const plans = [undefined, ...SIDES].flatMap((side) => {
    const own = laid.filter(({ panel }) => panel.side === side);
    return own.length === 0 ? [] : [planSide(own, what, named)];
  });
  return {
    seams: plans.flatMap(({ seams }) => seams),
    panels: new Map(plans.flatMap(({ panels }) => [...panels])),
  };
};
