/**
 * The pieces of an outline: how many cubics each run between two corners needs, or that it is straight. Each run starts with as few as its
 * turning allows; a piece whose readings lie beside it for a few millimetres together, by more than noise explains, is divided, and the
 * node between is free to slide to where it serves best.
 */
import { adjustOutline, feetFor, type Feet } from './adjust-outline.ts';
import type { FoundCorner } from './find-corners.ts';
import { turnBetween } from './find-corners.ts';
import type { Noise } from './measure-noise.ts';
import { misfitOf, type Misfit } from './misfit.ts';
import { pointsOfPiece, type Node, type OutlineModel, type Piece } from './outline-model.ts';
import { firstFrom, ringOf, roundTo, type Ring } from './ring.ts';
import { awayFromCorners } from './weigh-readings.ts';

/** Rounds of least squares for a division that is tried, and for the one that is taken. */
const ROUNDS_TRIED = 12;
const ROUNDS = 30;
const MOST_IN_RUN = 8;
/** A cubic turns this far at most to begin with. */
const MOST_TURN = (100 * Math.PI) / 180;
const LEAST_IN_RING = 4;
/** A piece is divided when a stretch of it is so sure to lie beside, or all of them together; and when that shows at all. */
const SURE_STRETCH = 4.5;
const SURE_TOGETHER = 5;
const SHOWS_MM = 0.003;
/** Pieces shorter than this are not divided; nodes that slide so near each other are too many. */
const SHORTEST_MM = 5;
const CLOSE_MM = 4;
/** Where a piece is divided to begin with. */
const SPLITS = [0.3, 0.5, 0.7];
/** A division is worth it when the squares fall by so much, and by this share. */
const WORTH_SQUARES = 40;
const WORTH_SHARE = 0.15;

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

const isStraight = (
  thin: Ring,
  weights: Float64Array,
  a: Node,
  b: Node,
  to: number,
  noise: Noise,
  pxPerMm: number,
): boolean => {
  // The readings' distances from the chord, fitted by a line and by a parabola and a cubic beside it.
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  const [dx, dy] = [(b.x - a.x) / length, (b.y - a.y) / length];
  const places: [number, number, number][] = [];
  for (let i = 0; i < 2 * thin.count; i += 1) {
    const along = thin.along[thin.count + i] ?? Infinity;
    if (along < a.along || along > to) continue;
    const w = weights[i % thin.count]!;
    if (w === 0) continue;
    const [x, y] = [thin.x[thin.count + i]! - a.x, thin.y[thin.count + i]! - a.y];
    places.push([(2 * (x * dx + y * dy)) / length - 1, y * dx - x * dy, w]);
  }
  if (places.length < 3) return true;
  const variance = noise.sigma * noise.sigma * noise.correlation;
  // Legendre-like terms made orthogonal on these very places, so that each one's share of the squares stands alone.
  const terms: Float64Array[] = [];
  const left = Float64Array.from(places, (p) => p[1]);
  for (let degree = 0; degree <= Math.min(3, places.length - 1); degree += 1) {
    const term = Float64Array.from(places, (p) => p[0] ** degree);
    const inner = (u: Float64Array, v: Float64Array): number => u.reduce((s, e, i) => s + e * v[i]! * places[i]![2], 0);
    for (const other of terms) {
      const share = inner(term, other) / inner(other, other);
      for (let i = 0; i < term.length; i += 1) term[i]! -= share * other[i]!;
    }
    const size = inner(term, term);
    const share = inner(left, term) / size;
    if (degree >= 2 && share * share * size > 16 * variance) {
      const bend = Math.max(...term.map((e) => Math.abs(e * share)));
      if (bend > 0.001 * pxPerMm) return false;
    }
    for (let i = 0; i < left.length; i += 1) left[i]! -= share * term[i]!;
    terms.push(term);
  }
  let [sum, weight, from] = [0, 0, -Infinity];
  const widest = (2 * 5 * pxPerMm) / length;
  for (const [i, [u, , w]] of places.entries()) {
    if (u - from > widest || i === places.length - 1) {
      if (weight > 0 && Math.abs(sum / weight) > Math.max(4.5 * Math.sqrt(variance / weight), SHOWS_MM * pxPerMm))
        return false;
      [sum, weight, from] = [0, 0, u];
    }
    sum += w * left[i]!;
    weight += w;
  }
  return true;
};

const lengthOf = (model: OutlineModel, k: number, total: number): number => {
  const [a, b] = [model.nodes[k]!, model.nodes[(k + 1) % model.nodes.length]!];
  return roundTo(total, b.along - a.along) || total;
};

/** The outline to start from: corners, and smooth nodes where runs turn far. */
const firstModel = (
  thin: Ring,
  corners: readonly FoundCorner[],
  noise: Noise,
  pxPerMm: number,
  blunt: number,
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
      Math.max(nodes.length === 1 ? 2 : 1, Math.min(MOST_IN_RUN, Math.ceil(turning / MOST_TURN))),
    );
  }
  return inOrder(
    { nodes: all, pieces: all.map((_, k) => ({ straight: straight[k]!, head: 0, tail: 0 })) },
    total,
    true,
  );
};

/** Nodes by how far along they lie; handles of a third of a piece's length where they are new. An open chain is in order as it is. */
const inOrder = (model: OutlineModel, total: number, fresh: boolean): OutlineModel => {
  const isOpen = model.nodes.length > model.pieces.length;
  const order = model.pieces.map((_, k) => k);
  if (!isOpen) order.sort((a, b) => model.nodes[a]!.along - model.nodes[b]!.along);
  const nodes = isOpen ? model.nodes : order.map((k) => model.nodes[k]!);
  const sorted = { nodes, pieces: order.map((k) => model.pieces[k]!) };
  if (!fresh) return sorted;
  return {
    nodes,
    pieces: sorted.pieces.map((piece, k) => {
      const third = lengthOf(sorted, k, total) / 3;
      return { ...piece, head: third, tail: third };
    }),
  };
};

/** Piece k divided at t, exactly. */
const divided = (model: OutlineModel, k: number, t: number, total: number): OutlineModel => {
  const [node, piece] = [model.nodes[k]!, model.pieces[k]!];
  const q = pointsOfPiece(model, k);
  const mid = (a: number, b: number): number => a + (b - a) * t;
  const [ax, ay] = [mid(q[2]!, q[4]!), mid(q[3]!, q[5]!)];
  const [lx, ly] = [mid(mid(q[0]!, q[2]!), ax), mid(mid(q[1]!, q[3]!), ay)];
  const [rx, ry] = [mid(ax, mid(q[4]!, q[6]!)), mid(ay, mid(q[5]!, q[7]!))];
  const direction = Math.atan2(ry - ly, rx - lx);
  const length = Math.hypot(rx - lx, ry - ly);
  const middle: Node = {
    x: mid(lx, rx),
    y: mid(ly, ry),
    corner: false,
    into: direction,
    out: direction,
    along: node.along + lengthOf(model, k, total) * t,
  };
  const halves: Piece[] = [
    { straight: false, head: piece.head * t, tail: length * t },
    { straight: false, head: length * (1 - t), tail: piece.tail * (1 - t) },
  ];
  return inOrder(
    {
      nodes: model.nodes.toSpliced(k + 1, 0, { ...middle, along: roundTo(total, middle.along) }),
      pieces: model.pieces.toSpliced(k, 1, ...halves),
    },
    total,
    false,
  );
};

/** Smooth nodes put where along the ring the readings pass from one piece to the next; a piece without readings has no length. */
const slid = (ring: Ring, model: OutlineModel, feet: Feet): OutlineModel => {
  const along = model.nodes.map((node) => node.along);
  const isOpen = model.nodes.length > model.pieces.length;
  for (let i = isOpen ? 1 : 0; i < ring.count; i += 1) {
    const [k, before] = [feet.piece[i]!, feet.piece[(i + ring.count - 1) % ring.count]!];
    for (let j = before; j !== k;) {
      const ahead = (k - before + model.pieces.length) % model.pieces.length;
      if (ahead > model.pieces.length / 2) break;
      j = (j + 1) % model.pieces.length;
      if (!model.nodes[j]!.corner) along[j] = ring.along[ring.count + i]!;
    }
  }
  return inOrder(
    { nodes: model.nodes.map((node, k) => ({ ...node, along: along[k]! })), pieces: model.pieces },
    ring.total,
    false,
  );
};

/** Without smooth nodes that have come near another node. */
const withoutCrowding = (model: OutlineModel, total: number, pxPerMm: number): OutlineModel => {
  const count = model.pieces.length;
  for (let k = 0; k < count && count > 1; k += 1) {
    if (model.nodes[k]!.corner) continue;
    const [before, after] = [lengthOf(model, (k + count - 1) % count, total), lengthOf(model, k, total)];
    const nearest = Math.min(before, after, total - before, total - after);
    if (nearest > CLOSE_MM * pxPerMm) continue;
    return withoutCrowding(withoutNode(model, k, total), total, pxPerMm);
  }
  return model;
};

const withoutNode = (model: OutlineModel, k: number, total: number): OutlineModel => {
  const count = model.pieces.length;
  const previous = (k + count - 1) % count;
  const nodes = model.nodes.filter((_, i) => i !== k);
  const pieces = model.pieces.filter((_, i) => i !== k);
  const at = previous < k ? previous : pieces.length - 1;
  const merged = { nodes, pieces };
  const third = lengthOf(merged, at, total) / 3;
  return {
    nodes,
    pieces: pieces.map((piece, i) => (i === at ? { straight: false, head: third, tail: third } : piece)),
  };
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
    const calm = withoutCrowding(slid(c.ring, model, feet), c.ring.total, c.pxPerMm);
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

/** Divides pieces one at a time, whichever helps most, until all fit. */
const shapeChain = (c: Chain, start: OutlineModel, most: number): OutlineModel => {
  let best = fitted(c, start, ROUNDS);
  while (best.model.pieces.length < most) {
    const { model, misfits } = best;
    const bad = misfits.flatMap((m, k) =>
      isBad(m, c.pxPerMm) && lengthOf(model, k, c.ring.total) > SHORTEST_MM * c.pxPerMm ? [k] : [],
    );
    if (bad.length === 0) break;
    const worst = bad.toSorted((a, b) => misfits[b]!.squares - misfits[a]!.squares).slice(0, 2);
    const tries = worst.flatMap((k) => SPLITS.map((t) => divided(model, k, t, c.ring.total)));
    const promising = tries.map((m) => fitted(c, m, ROUNDS_TRIED)).reduce((a, b) => (b.squares < a.squares ? b : a));
    const next = fitted(c, promising.model, ROUNDS);
    if (next.squares > best.squares - Math.max(WORTH_SQUARES, WORTH_SHARE * best.squares)) break;
    best = next;
  }
  return best.model;
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
    let shaped = open;
    if (!open.pieces[0]!.straight) {
      shaped = shapeChain(runOf(whole, start.along, open.nodes.at(-1)!.along), open, MOST_IN_RUN);
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
