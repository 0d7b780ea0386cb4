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
import { firstFrom, type Ring } from './ring.ts';
import { awayFromCorners } from './weigh-readings.ts';

const PASSES = 6;
const ROUNDS = 12;
const MOST_IN_RUN = 6;
/** A cubic turns this far at most to begin with. */
const MOST_TURN = (100 * Math.PI) / 180;
const LEAST_IN_RING = 4;
/** A piece is divided when a stretch of it is so sure to lie beside, or all of them together; and when that shows at all. */
const SURE_STRETCH = 4.5;
const SURE_TOGETHER = 5;
const SHOWS_MM = 0.003;
/** Pieces shorter than this are not divided; nodes that slide so near each other are too many. */
const SHORTEST_MM = 5;
const CLOSE_MM = 2;

export interface Shape {
  readonly model: OutlineModel;
  readonly feet: Feet;
}

const roundTo = (total: number, along: number): number => ((along % total) + total) % total;

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

/** Nodes by how far along they lie; handles of a third of a piece's length where they are new. */
const inOrder = (model: OutlineModel, total: number, fresh: boolean): OutlineModel => {
  const order = model.nodes.map((_, k) => k).toSorted((a, b) => model.nodes[a]!.along - model.nodes[b]!.along);
  const sorted = { nodes: order.map((k) => model.nodes[k]!), pieces: order.map((k) => model.pieces[k]!) };
  if (!fresh) return sorted;
  return {
    nodes: sorted.nodes,
    pieces: sorted.pieces.map((piece, k) => {
      const third = lengthOf(sorted, k, total) / 3;
      return { ...piece, head: third, tail: third };
    }),
  };
};

/** The pieces divided where asked, each in the middle, exactly. */
const divided = (model: OutlineModel, which: ReadonlySet<number>, total: number): OutlineModel => {
  const nodes: Node[] = [];
  const pieces: Piece[] = [];
  for (const [k, piece] of model.pieces.entries()) {
    const node = model.nodes[k]!;
    if (!which.has(k)) {
      nodes.push(node);
      pieces.push(piece);
      continue;
    }
    const q = pointsOfPiece(model, k);
    const mid = (a: number, b: number): number => (q[a]! + q[b]!) / 2;
    const [ax, ay, cx, cy] = [mid(2, 4), mid(3, 5), 0, 0];
    const [lx, ly, rx, ry] = [(mid(0, 2) + ax) / 2, (mid(1, 3) + ay) / 2, (ax + mid(4, 6)) / 2, (ay + mid(5, 7)) / 2];
    const direction = Math.atan2(ry - ly + cy, rx - lx + cx);
    const half = Math.hypot(rx - lx, ry - ly) / 2;
    const along = roundTo(total, node.along + lengthOf(model, k, total) / 2);
    nodes.push(node, { x: (lx + rx) / 2, y: (ly + ry) / 2, corner: false, into: direction, out: direction, along });
    pieces.push(
      { straight: false, head: piece.head / 2, tail: half },
      { straight: false, head: half, tail: piece.tail / 2 },
    );
  }
  return inOrder({ nodes, pieces }, total, false);
};

/** Smooth nodes put where along the ring the readings pass from one piece to the next. */
const slid = (ring: Ring, model: OutlineModel, feet: Feet): OutlineModel => {
  const along = model.nodes.map((node) => node.along);
  for (let i = 0; i < ring.count; i += 1) {
    const [k, before] = [feet.piece[i]!, feet.piece[(i + ring.count - 1) % ring.count]!];
    if (k !== before && k === (before + 1) % model.nodes.length && !model.nodes[k]!.corner)
      along[k] = ring.along[ring.count + i]!;
  }
  return inOrder(
    { nodes: model.nodes.map((node, k) => ({ ...node, along: along[k]! })), pieces: model.pieces },
    ring.total,
    false,
  );
};

/** Without smooth nodes that have come near another node. */
const withoutCrowding = (model: OutlineModel, total: number, pxPerMm: number): OutlineModel => {
  const count = model.nodes.length;
  for (let k = 0; k < count && count > 1; k += 1) {
    const previous = (k + count - 1) % count;
    if (model.nodes[k]!.corner) continue;
    const [before, after] = [lengthOf(model, previous, total), lengthOf(model, k, total)];
    if (Math.min(before, after) > CLOSE_MM * pxPerMm) continue;
    return withoutCrowding(withoutNode(model, k, total), total, pxPerMm);
  }
  return model;
};

export const withoutNode = (model: OutlineModel, k: number, total: number): OutlineModel => {
  const count = model.nodes.length;
  const previous = (k + count - 1) % count;
  const [before, after] = [lengthOf(model, previous, total), lengthOf(model, k, total)];
  const [a, b] = [model.pieces[previous]!, model.pieces[k]!];
  const merged = {
    straight: false,
    head: (a.head * (before + after)) / before,
    tail: (b.tail * (before + after)) / after,
  };
  return {
    nodes: model.nodes.filter((_, i) => i !== k),
    pieces: model.pieces.map((piece, i) => (i === previous ? merged : piece)).filter((_, i) => i !== k),
  };
};

const isBad = (m: Misfit, pxPerMm: number): boolean =>
  m.furthest > SHOWS_MM * pxPerMm &&
  (m.worst > SURE_STRETCH || (m.squares - m.stretches) / Math.sqrt(2 * Math.max(1, m.stretches)) > SURE_TOGETHER);

/** How many pieces the run of each piece has. */
const piecesInRun = (model: OutlineModel): number[] => {
  const count = model.nodes.length;
  const first = model.nodes.findIndex((node) => node.corner);
  const sizes = Array.from({ length: count }, () => count);
  if (first < 0) return sizes;
  for (let from = 0; from < count;) {
    let to = from + 1;
    while (to < count && !model.nodes[(first + to) % count]!.corner) to += 1;
    for (let i = from; i < to; i += 1) sizes[(first + i) % count] = to - from;
    from = to;
  }
  return sizes;
};

export const shapeRuns = (
  thin: Ring,
  corners: readonly FoundCorner[],
  noise: Noise,
  pxPerMm: number,
  blunt: number,
): Shape => {
  let model = firstModel(thin, corners, noise, pxPerMm, blunt);
  let feet = feetFor(thin, model);
  for (let pass = 0; pass < PASSES; pass += 1) {
    const weights = awayFromCorners(thin, model, blunt);
    model = adjustOutline(thin, weights, model, feet, noise.sigma, ROUNDS);
    const calm = withoutCrowding(slid(thin, model, feet), thin.total, pxPerMm);
    if (calm.nodes.length < model.nodes.length) {
      model = calm;
      feet = feetFor(thin, model);
      model = adjustOutline(thin, weights, model, feet, noise.sigma, ROUNDS);
    }
    model = slid(thin, model, feet);
    feet = feetFor(thin, model);
    if (pass === PASSES - 1) break;
    model = adjustOutline(thin, weights, model, feet, noise.sigma, 2);
    const misfits = misfitOf(thin, weights, feet, model.pieces.length, noise, pxPerMm);
    const inRun = piecesInRun(model);
    const bad = new Set<number>();
    for (const [k, misfit] of misfits.entries()) {
      const room = corners.length === 0 ? 2 * MOST_IN_RUN : MOST_IN_RUN;
      if (isBad(misfit, pxPerMm) && lengthOf(model, k, thin.total) > SHORTEST_MM * pxPerMm && inRun[k]! < room)
        bad.add(k);
    }
    if (bad.size === 0) break;
    model = divided(model, bad, thin.total);
    feet = feetFor(thin, model);
  }
  return { model, feet };
};
