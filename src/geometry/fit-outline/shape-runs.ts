/**
 * The pieces of an outline: how many cubics each run between two corners needs, or that it is straight. Each run starts with as few as its
 * turning allows; a piece whose readings lie beside it for a few millimetres together, by more than noise explains, is divided, and the
 * node between is free to slide to where it serves best. Nodes that are not missed are taken out again.
 */
import { adjustOutline } from './adjust-outline.ts';
import { divided, inOrder, lengthOf, slid, withoutCrowding, withoutNode } from './change-pieces.ts';
import { feetFor } from './feet.ts';
import type { FoundCorner } from './find-corners.ts';
import { firstModel, LEAST_IN_RING } from './first-model.ts';
import type { Noise } from './measure-noise.ts';
import { misfitOf, type Misfit } from './misfit.ts';
import type { Node, OutlineModel, Piece } from './outline-model.ts';
import { firstFrom, ringOf, roundTo, type Ring } from './ring.ts';
import { awayFromCorners } from './weigh-readings.ts';

/** Rounds of least squares for a division that is tried, and for the one that is taken. */
const ROUNDS_TRIED = 12;
const ROUNDS = 30;
const MOST_IN_RUN = 8;
const MOST_IN_ALL = 24;
/** A piece is divided when a stretch of it is so sure to lie beside, or all of them together; and when that shows at all. */
const SURE_STRETCH = 4.5;
const SURE_TOGETHER = 5;
const SHOWS_MM = 0.003;
/** Pieces shorter than this are not divided. */
const SHORTEST_MM = 5;
/** A node in a gap wider than this counts as leaving so many times more. */
const GAP_MM = 1;
const IN_GAP = 4;
/** Where a piece is divided to begin with. */
const SPLITS = [0.3, 0.5, 0.7];
/** A division is worth it when the squares fall by so much, and by this share. */
const WORTH_SQUARES = 40;
const WORTH_SHARE = 0.15;
const SWAPS = 3;

/** How long the stretch without a place is in which this lies. */
const gapAround = (ring: Ring, along: number): number => {
  const i = firstFrom(ring, along);
  return (ring.along[i] ?? Infinity) - (ring.along[i - 1] ?? -Infinity);
};

const isBad = (m: Misfit, pxPerMm: number): boolean =>
  m.furthest > SHOWS_MM * pxPerMm &&
  (m.worst > SURE_STRETCH || (m.squares - m.stretches) / Math.sqrt(2 * Math.max(1, m.stretches)) > SURE_TOGETHER);

interface Fitted {
  readonly model: OutlineModel;
  readonly misfits: readonly Misfit[];
  readonly squares: number;
}

const fitted = (c: Chain, start: OutlineModel, rounds: number): Fitted => {
  let model = start;
  let feet = feetFor(c.ring, model);
  for (;;) {
    model = adjustOutline(c.ring, c.weights, model, feet, c.noise.sigma, rounds);
    const calm = withoutCrowding(slid(c.ring, model, feet), c.ring, c.pxPerMm);
    const isCalm = calm.pieces.length === model.pieces.length;
    model = calm;
    if (isCalm) break;
    feet = feetFor(c.ring, model);
  }
  const misfits = misfitOf(c.ring, c.weights, feet, model.pieces.length, c.noise, c.pxPerMm);
  return { model, misfits, squares: misfits.reduce((sum, m) => sum + m.squares, 0) };
};

/** A run between two corners, or a ring without any, and the readings along it. */
interface Chain {
  readonly ring: Ring;
  readonly weights: Float64Array;
  readonly noise: Noise;
  readonly pxPerMm: number;
}

/** The fit that leaves least. One with a node in a gap, where nothing holds it, has to be a good deal better than others. */
const leastOf = (c: Chain, tries: readonly Fitted[]): Fitted => {
  const gap = GAP_MM * c.pxPerMm + c.ring.spacing;
  const cost = ({ model, squares }: Fitted): number =>
    squares * (model.nodes.some((node) => !node.corner && gapAround(c.ring, node.along) > gap) ? IN_GAP : 1);
  return tries.reduce((a, b) => (cost(b) < cost(a) ? b : a));
};

const badPieces = (c: Chain, { model, misfits }: Fitted): number[] =>
  misfits.flatMap((m, k) =>
    isBad(m, c.pxPerMm) && lengthOf(model, k, c.ring.total) > SHORTEST_MM * c.pxPerMm ? [k] : [],
  );

/** Divides pieces one at a time, whichever helps most, until all fit. */
const dividedUntilFit = (c: Chain, start: Fitted, most: number): Fitted => {
  let best = start;
  while (best.model.pieces.length < most) {
    const { model, misfits } = best;
    const worst = badPieces(c, best)
      .toSorted((a, b) => misfits[b]!.squares - misfits[a]!.squares)
      .slice(0, 2);
    if (worst.length === 0) break;
    const tries = worst.flatMap((k) => SPLITS.map((t) => divided(model, k, t, c.ring.total)));
    const promising = leastOf(
      c,
      tries.map((m) => fitted(c, m, ROUNDS_TRIED)),
    );
    const next = fitted(c, promising.model, ROUNDS);
    if (next.squares > best.squares - Math.max(WORTH_SQUARES, WORTH_SHARE * best.squares)) break;
    best = next;
  }
  return best;
};

/** The fit without the smooth node that is missed least; undefined where there is none. */
const oneFewer = (c: Chain, { model }: Fitted): Fitted | undefined => {
  const isRing = model.nodes.length === model.pieces.length && !model.nodes.some((node) => node.corner);
  if (isRing && model.pieces.length <= LEAST_IN_RING) return undefined;
  const tries = model.nodes.flatMap((node, k) => (node.corner ? [] : [withoutNode(model, k, c.ring.total)]));
  if (tries.length === 0 || model.pieces.length === 1) return undefined;
  return fitted(
    c,
    leastOf(
      c,
      tries.map((m) => fitted(c, m, ROUNDS_TRIED)),
    ).model,
    ROUNDS,
  );
};

/**
 * Pieces divided until all fit, then put together again where that does no harm. Where that way ends in a bad fit all the same, the least
 * useful node is taken out and another place looked for, a few times over.
 */
const shapeChain = (c: Chain, start: OutlineModel, most: number): OutlineModel => {
  let best = dividedUntilFit(c, fitted(c, start, ROUNDS), most);
  for (let swap = 0; swap < SWAPS && badPieces(c, best).length > 0; swap += 1) {
    const fewer = oneFewer(c, best);
    if (fewer === undefined) break;
    const next = dividedUntilFit(c, fewer, most);
    if (next.squares > best.squares - WORTH_SQUARES) break;
    best = next;
  }
  for (;;) {
    const fewer = oneFewer(c, best);
    if (fewer === undefined || fewer.squares > best.squares + WORTH_SQUARES) return best.model;
    if (badPieces(c, fewer).length > badPieces(c, best).length || fewer.model.pieces.length >= best.model.pieces.length)
      return best.model;
    best = fewer;
  }
};

/** Long runs are shaped on so many places or a little more, up to three of the thinned ring's made one. */
const ENOUGH_PLACES = 120;
const MOST_TOGETHER = 3;

/**
 * The places of a run of `length` as a ring of their own, counted from its first node; places near a corner, of no weight,
 * are left out. A run that is the whole ring stays closed, any other has a total that never brings it back to its start.
 */
const runOf = (c: Chain, from: number, length: number): Chain => {
  const { ring: thin, weights } = c;
  const first = firstFrom(thin, from);
  let end = first;
  while (end < thin.along.length && thin.along[end]! - from < length) end += 1;
  const together = Math.max(1, Math.min(MOST_TOGETHER, Math.floor((end - first) / ENOUGH_PLACES)));
  const places: number[][] = [];
  for (let i = first; i < end;) {
    let [x, y, along, sum] = [0, 0, 0, 0];
    for (const until = Math.min(end, i + together); i < until; i += 1) {
      const w = weights[i % thin.count]!;
      x += w * thin.x[i]!;
      y += w * thin.y[i]!;
      along += w * (thin.along[i]! - from);
      sum += w;
    }
    if (sum > 0) places.push([x / sum, y / sum, sum, along / sum]);
  }
  const total = length === thin.total ? length : thin.total + length;
  return {
    ...c,
    ring: ringOf(places, total, thin.spacing * together),
    weights: Float64Array.from(places, (p) => p[2]!),
  };
};

export const shapeRuns = (
  thin: Ring,
  corners: readonly FoundCorner[],
  noise: Noise,
  pxPerMm: number,
  blunt: number,
): OutlineModel => {
  const { total } = thin;
  const first = firstModel(thin, corners, noise, pxPerMm, blunt);
  const weights = awayFromCorners(thin, first, blunt);
  const whole = { ring: thin, weights, noise, pxPerMm };
  if (corners.length === 0) return shapeChain(runOf(whole, 0, total), first, 2 * MOST_IN_RUN);
  const nodes: Node[] = [];
  const pieces: Piece[] = [];
  const count = first.nodes.length;
  const begin = first.nodes.findIndex((node) => node.corner);
  let arrived: number | undefined;
  for (let from = 0; from < count;) {
    let to = from + 1;
    while (to < count && !first.nodes[(begin + to) % count]!.corner) to += 1;
    const own = Array.from({ length: to - from + 1 }, (_, i) => first.nodes[(begin + from + i) % count]!);
    const start = own[0]!;
    const far = (node: Node, isEnd: boolean): number => roundTo(total, node.along - start.along) || (isEnd ? total : 0);
    const open: OutlineModel = {
      nodes: own.map((node, i) => ({ ...node, along: far(node, i === own.length - 1) })),
      pieces: Array.from({ length: to - from }, (_, i) => first.pieces[(begin + from + i) % count]!),
    };
    const runsLeft = first.nodes.filter((node, k) => node.corner && (k - begin + count) % count >= to).length;
    const room = Math.max(open.pieces.length, Math.min(MOST_IN_RUN, MOST_IN_ALL - pieces.length - runsLeft));
    let shaped = open;
    if (!open.pieces[0]!.straight) {
      shaped = shapeChain(runOf(whole, start.along, open.nodes.at(-1)!.along), open, room);
    }
    for (const [i, piece] of shaped.pieces.entries()) {
      const node = shaped.nodes[i]!;
      const place = i === 0 ? { x: start.x, y: start.y, into: arrived ?? node.into } : {};
      nodes.push({ ...node, ...place, along: roundTo(total, node.along + start.along) });
      pieces.push(piece);
    }
    arrived = shaped.nodes.at(-1)!.into;
    from = to;
  }
  nodes[0] = { ...nodes[0]!, into: arrived ?? nodes[0]!.into };
  return inOrder({ nodes, pieces }, total, false);
};
