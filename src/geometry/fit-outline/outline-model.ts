/**
 * A closed outline as unknowns of a least squares problem: places of the nodes, one direction at a smooth node and two at a corner, two
 * handle lengths a cubic. A straight piece has none but its ends.
 */
import type { Path } from '../path.ts';
import { point, type Point } from '../point.ts';
import { cubic, line } from '../segment.ts';

export interface Node extends Point {
  readonly corner: boolean;
  /** Directions of travel, radians; the same at a smooth node. */
  readonly into: number;
  readonly out: number;
  /** How far along the ring of readings. */
  readonly along: number;
}

export interface Piece {
  readonly straight: boolean;
  /** Lengths of its handles. */
  readonly head: number;
  readonly tail: number;
}

/** Piece number k runs from node k to the next, the last back to node 0. */
export interface OutlineModel {
  readonly nodes: readonly Node[];
  readonly pieces: readonly Piece[];
}

/** For each piece, where in the row of unknowns its own eight stand: x, y, direction, handle at its start, then at its end; -1 for none. */
export interface Layout {
  readonly size: number;
  readonly places: Int32Array;
}

export const PER_PIECE = 8;

export const layoutOf = ({ nodes, pieces }: OutlineModel): Layout => {
  const count = nodes.length;
  const places = new Int32Array(PER_PIECE * count).fill(-1);
  let size = 0;
  const take = (): number => {
    size += 1;
    return size - 1;
  };
  for (let k = 0; k < count; k += 1) {
    const previous = (k + count - 1) % count;
    const [from, to] = [k * PER_PIECE, previous * PER_PIECE + 4];
    for (const i of [0, 1]) places[from + i] = places[to + i] = take();
    const [leaves, arrives] = [!pieces[k]!.straight, !pieces[previous]!.straight];
    if (!nodes[k]!.corner) places[from + 2] = places[to + 2] = take();
    else {
      if (arrives) places[to + 2] = take();
      if (leaves) places[from + 2] = take();
    }
    if (arrives) places[to + 3] = take();
    if (leaves) places[from + 3] = take();
  }
  return { size, places };
};

export const unknownsOf = ({ nodes, pieces }: OutlineModel, { size, places }: Layout): Float64Array => {
  const unknowns = new Float64Array(size);
  for (const [k, piece] of pieces.entries()) {
    const [start, end] = [nodes[k]!, nodes[(k + 1) % nodes.length]!];
    const values = [start.x, start.y, start.out, piece.head, end.x, end.y, end.into, piece.tail];
    for (const [i, value] of values.entries()) {
      const place = places[k * PER_PIECE + i]!;
      if (place >= 0) unknowns[place] = value;
    }
  }
  return unknowns;
};

export const modelWith = (model: OutlineModel, { places }: Layout, unknowns: Float64Array): OutlineModel => {
  const { nodes, pieces } = model;
  const value = (k: number, i: number, otherwise: number): number => unknowns[places[k * PER_PIECE + i]!] ?? otherwise;
  return {
    nodes: nodes.map((node, k) => ({
      ...node,
      x: value(k, 0, node.x),
      y: value(k, 1, node.y),
      out: value(k, 2, node.out),
      into: value((k + nodes.length - 1) % nodes.length, 6, node.into),
    })),
    pieces: pieces.map((piece, k) => ({ ...piece, head: value(k, 3, piece.head), tail: value(k, 7, piece.tail) })),
  };
};

/** The four points of piece k, as x0 y0 x1 y1 x2 y2 x3 y3. */
export const pointsOfPiece = ({ nodes, pieces }: OutlineModel, k: number): number[] => {
  const [a, b, piece] = [nodes[k]!, nodes[(k + 1) % nodes.length]!, pieces[k]!];
  const { head, tail } = piece;
  if (piece.straight) {
    const [dx, dy] = [(b.x - a.x) / 3, (b.y - a.y) / 3];
    return [a.x, a.y, a.x + dx, a.y + dy, b.x - dx, b.y - dy, b.x, b.y];
  }
  return [
    a.x,
    a.y,
    a.x + head * Math.cos(a.out),
    a.y + head * Math.sin(a.out),
    b.x - tail * Math.cos(b.into),
    b.y - tail * Math.sin(b.into),
    b.x,
    b.y,
  ];
};

export const pathOfModel = (model: OutlineModel): Path => {
  const places = model.nodes.map(({ x, y }) => point(x, y));
  return {
    segments: model.pieces.map((piece, k) => {
      const [start, end] = [places[k]!, places[(k + 1) % places.length]!];
      if (piece.straight) return line(start, end);
      const [, , ax, ay, bx, by] = pointsOfPiece(model, k) as [number, number, number, number, number, number];
      return cubic(start, point(ax, ay), point(bx, by), end);
    }),
  };
};
