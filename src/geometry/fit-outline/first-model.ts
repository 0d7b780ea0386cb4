import { inOrder } from './change-pieces.ts';
import { turnBetween, type FoundCorner } from './find-corners.ts';
import { isStraight } from './is-straight.ts';
import type { Noise } from './measure-noise.ts';
import type { Node, OutlineModel } from './outline-model.ts';
import { firstFrom, roundTo, type Ring } from './ring.ts';
import { awayFromCorners } from './weigh-readings.ts';

/** A cubic turns this far at most to begin with. */
const MOST_TURN = (100 * Math.PI) / 180;
const MOST_AT_FIRST = 8;
/** A ring without a corner has as many pieces at least. */
export const LEAST_IN_RING = 4;

/** Direction of the thinned ring at a place, over some millimetres. */
const directionAt = (thin: Ring, along: number, reach: number): number => {
  const at = (s: number): number => Math.min(thin.along.length - 1, firstFrom(thin, s));
  const [a, b] = [at(along - reach), at(along + reach)];
  return Math.atan2(thin.y[b]! - thin.y[a]!, thin.x[b]! - thin.x[a]!);
};

const smoothNode = (thin: Ring, along: number, pxPerMm: number): Node => {
  const s = roundTo(thin.total, along);
  const i = Math.min(2 * thin.count - 1, firstFrom(thin, s));
  const direction = directionAt(thin, s, 1.2 * pxPerMm);
  return { x: thin.x[i]!, y: thin.y[i]!, corner: false, into: direction, out: direction, along: s };
};

/** How far a run turns in all, left and right turns added, by directions every few millimetres. */
const turningOf = (thin: Ring, from: number, to: number, pxPerMm: number): number => {
  const step = 4 * pxPerMm;
  let sum = 0;
  let last: number | undefined;
  for (let s = from + step; s <= to - step; s += step) {
    const direction = directionAt(thin, roundTo(thin.total, s), step / 2);
    if (last !== undefined) sum += Math.abs(turnBetween(last, direction));
    last = direction;
  }
  return sum;
};

/** A coarse model's pieces turn and reach this far at most. */
const COARSE_TURN = (40 * Math.PI) / 180;
const COARSE_MM = 40;

/** An outline of so many pieces that they need not be told apart from fewer: for a path to measure along. */
export const coarseModel = (
  thin: Ring,
  corners: readonly FoundCorner[],
  noise: Noise,
  pxPerMm: number,
  blunt: number,
): OutlineModel => firstModel(thin, corners, noise, pxPerMm, blunt, { turn: COARSE_TURN, length: COARSE_MM * pxPerMm });

/** What a piece turns and reaches at most to begin with. */
interface PieceLimits {
  readonly turn: number;
  readonly length: number;
}

/** The outline to start from: corners, and smooth nodes where runs turn far. */
export const firstModel = (
  thin: Ring,
  corners: readonly FoundCorner[],
  noise: Noise,
  pxPerMm: number,
  blunt: number,
  most: PieceLimits = { turn: MOST_TURN, length: Infinity },
): OutlineModel => {
  const { total } = thin;
  const nodes: Node[] = corners.map(({ x, y, along, into, out }) => ({ x, y, along, into, out, corner: true }));
  const weights = awayFromCorners(thin, { nodes, pieces: [] }, blunt);
  const all: Node[] = [];
  const straight: boolean[] = [];
  const spread = (from: number, length: number, pieces: number): void => {
    for (let i = 1; i < pieces; i += 1) {
      all.push(smoothNode(thin, from + (length * i) / pieces, pxPerMm));
      straight.push(false);
    }
  };
  if (nodes.length === 0) {
    all.push(smoothNode(thin, 0, pxPerMm));
    straight.push(false);
    spread(0, total, LEAST_IN_RING);
  }
  for (const [i, node] of nodes.entries()) {
    const next = nodes[(i + 1) % nodes.length]!;
    const length = roundTo(total, next.along - node.along) || total;
    all.push(node);
    const isLine = nodes.length > 1 && isStraight(thin, weights, node, next, node.along + length, noise, pxPerMm);
    straight.push(isLine);
    if (isLine) continue;
    const turning = turningOf(thin, node.along, node.along + length, pxPerMm);
    spread(
      node.along,
      length,
      Math.max(
        nodes.length === 1 ? 2 : 1,
        Math.min(MOST_AT_FIRST, Math.ceil(turning / most.turn + length / most.length)),
      ),
    );
  }
  return inOrder(
    { nodes: all, pieces: all.map((_, k) => ({ straight: straight[k]!, head: 0, tail: 0 })) },
    total,
    true,
  );
};
