/** Pieces of an outline divided, put together again, and put in order. */
import type { Feet } from './feet.ts';
import { turnBetween } from './find-corners.ts';
import { pointsOfPiece, type Node, type OutlineModel, type Piece } from './outline-model.ts';
import { roundTo, type Ring } from './ring.ts';

/** Smooth nodes that slide so near to another are too many. */
const CLOSE_MM = 4;

/** How far along the ring piece k reaches. */
export const lengthOf = (model: OutlineModel, k: number, total: number): number => {
  const [a, b] = [model.nodes[k]!, model.nodes[(k + 1) % model.nodes.length]!];
  return roundTo(total, b.along - a.along) || total;
};

/** Nodes by how far along they lie; handles of a third of a piece's length where they are new. An open chain is in order as it is. */
export const inOrder = (model: OutlineModel, total: number, fresh: boolean): OutlineModel => {
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
export const divided = (model: OutlineModel, k: number, t: number, total: number): OutlineModel => {
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
export const slid = (ring: Ring, model: OutlineModel, feet: Feet): OutlineModel => {
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
export const withoutCrowding = (model: OutlineModel, ring: Ring, pxPerMm: number): OutlineModel => {
  const count = model.pieces.length;
  if (count === 1) return model;
  for (let k = 0; k < count; k += 1) {
    if (model.nodes[k]!.corner) continue;
    const [before, after] = [lengthOf(model, (k + count - 1) % count, ring.total), lengthOf(model, k, ring.total)];
    const nearest = Math.min(before, after, ring.total - before, ring.total - after);
    if (nearest > CLOSE_MM * pxPerMm) continue;
    return withoutCrowding(withoutNode(model, k, ring.total), ring, pxPerMm);
  }
  return model;
};

export const withoutNode = (model: OutlineModel, k: number, total: number): OutlineModel => {
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

/** A piece that leaves its chord at a corner by more than this, about 100 degrees, is held by no reading there and has turned round. */
const TWISTED = 1.75;

/** The model with pieces that turned round at a corner, for want of readings, laid straight to begin again; the same if there is none. */
export const withoutTwists = (model: OutlineModel): OutlineModel => {
  const nodes = [...model.nodes];
  const pieces = [...model.pieces];
  let found = false;
  for (const [k, piece] of model.pieces.entries()) {
    const to = (k + 1) % nodes.length;
    const [a, b] = [nodes[k]!, nodes[to]!];
    const chord = Math.atan2(b.y - a.y, b.x - a.x);
    const out = a.corner && Math.abs(turnBetween(chord, a.out)) > TWISTED;
    const into = b.corner && Math.abs(turnBetween(chord, b.into)) > TWISTED;
    if (piece.straight || !(out || into)) continue;
    found = true;
    const third = Math.hypot(b.x - a.x, b.y - a.y) / 3;
    if (out) nodes[k] = { ...a, out: chord };
    if (into) nodes[to] = { ...b, into: chord };
    pieces[k] = { ...piece, head: third, tail: third };
  }
  return found ? { nodes, pieces } : model;
};
