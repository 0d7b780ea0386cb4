/** The opening of a laced back as a shape: known at the levels, between them as calm as it can be. */

import { monotoneBlend } from '../geometry/monotone-blend.ts';
import { SIDES, type Side } from '../pattern/panel.ts';
import type { BackSpan, GirthPlotRow } from './girth-plot-row.ts';

/** What there is to know of one height: how far an edge lies to the right of the centre back as seen from behind, and how that changes downwards. */
interface EdgePlace {
  readonly x: number;
  readonly slope: number;
}

/** A stretch of a laced edge between two heights. */
export interface OpeningPiece extends BackSpan {
  /** Beyond the outermost levels, where nothing was measured. */
  readonly held: boolean;
  /** The edges meet here before the body is reduced so far, or the one edge that is looked at would pass the centre back. */
  readonly meets: boolean;
}

export interface Opening {
  readonly sides: readonly Side[];
  /** Where the edge of a side lies at a height, in a stretch where the edges meet or not: edges that would overlap lie on each other in the middle. */
  place(side: Side, y: number, meets: boolean): EdgePlace;
  /** The stretches into which a span falls, from the top down. */
  pieces(span: BackSpan): readonly OpeningPiece[];
}

/**
 * The opening through the gaps of all levels, at least one: the gap, and how far its middle lies off the centre back, each by a monotone cubic, so
 * that neither overshoots what was foretold; beyond the outermost levels both are held. Levels equally high count as one, at their mean.
 * The wearer's left is on the left.
 */
export const lacedOpening = (rows: readonly GirthPlotRow[]): Opening => {
  const sides = SIDES.filter((side) => rows.every(({ fromCentre }) => fromCentre[side] !== undefined));
  const isHalf = sides.length === 1;
  const gaps = blendOf(rows, ({ fromCentre: { left = 0, right = 0 } }) => (isHalf ? 2 : 1) * (left + right));
  const middles = blendOf(rows, ({ fromCentre: { left = 0, right = 0 } }) => (isHalf ? 0 : (right - left) / 2));
  const heights = rows.map(({ y }) => y).toSorted((a, b) => a - b);
  const [first, last] = [heights[0]!, heights.at(-1)!];
  const meetings = heights.slice(1).flatMap((to, at) => crossingOf(gaps.value, heights[at]!, to));
  return {
    sides,
    place: (side, y, meets) => {
      const outwards = meets ? 0 : side === 'left' ? -1 / 2 : 1 / 2;
      return {
        x: middles.value(y) + outwards * Math.max(0, gaps.value(y)),
        slope: middles.slope(y) + outwards * gaps.slope(y),
      };
    },
    pieces: ({ top, bottom }) => {
      const inside = [...heights, ...meetings].filter((y) => y > top && y < bottom);
      const stops = [...new Set([top, ...inside, bottom])].toSorted((a, b) => a - b);
      return stops.slice(1).map((to, at): OpeningPiece => {
        const from = stops[at]!;
        const held = to <= first || from >= last;
        return { top: from, bottom: to, held, meets: gaps.value((from + to) / 2) < 0 };
      });
    },
  };
};

/** The gap that is wished for as a function of height: as calm as the opening itself. */
export const wantedOpening = (rows: readonly GirthPlotRow[]): ((y: number) => number) =>
  blendOf(rows, ({ gapWanted }) => gapWanted).value;

const blendOf = (rows: readonly GirthPlotRow[], of: (row: GirthPlotRow) => number) => {
  const byHeight = new Map<number, number[]>();
  for (const row of rows) byHeight.set(row.y, [...(byHeight.get(row.y) ?? []), of(row)]);
  const knots = [...byHeight].map(([at, values]) => ({
    at,
    value: values.reduce((sum, value) => sum + value, 0) / values.length,
  }));
  return monotoneBlend(knots, 'free');
};

/** Halvings that bring a stretch of a metre below a thousandth of a micrometre. */
const HALVINGS = 50;

/** Where a function that only rises or only falls from one height to the next passes nothing. */
const crossingOf = (value: (y: number) => number, from: number, to: number): number[] => {
  const sign = Math.sign(value(from));
  if (sign * Math.sign(value(to)) >= 0) return [];
  let [low, high] = [from, to];
  for (let step = 0; step < HALVINGS; step += 1) {
    const middle = (low + high) / 2;
    if (Math.sign(value(middle)) === sign) low = middle;
    else high = middle;
  }
  return [(low + high) / 2];
};
