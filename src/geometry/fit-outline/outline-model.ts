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

/** Piece number k runs from node k to the next; with as many nodes as pieces the last runs back to node 0, with one more it is open. */
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
  const count = pieces.length;
  const isOpen = nodes.length > count;
  const places = new Int32Array(PER_PIECE * count).fill(-1);
  let size = 0;
  const give = (...to: number[]): void => {
    const taken = to.filter((place) => place >= 0);
    for (const place of taken) places[place] = size;
    if (taken.length > 0) size += 1;
  };
  for (const [k, node] of nodes.entries()) {
    const before = k > 0 ? k - 1 : isOpen ? -1 : count - 1;
    const after = k < count ? k : -1;
    const arrives = before >= 0 && !pieces[before]!.straight;
    const leaves = after >= 0 && !pieces[after]!.straight;
    const start = (i: number, wanted: boolean): number => (after >= 0 && wanted ? after * PER_PIECE + i : -1);
    const end = (i: number, wanted: boolean): number => (before >= 0 && wanted ? before * PER_PIECE + 4 + i : -1);
    for (const i of [0, 1]) give(start(i, true), end(i, true));
    if (node.corner) {
      give(end(2, arrives));
      give(start(2, leaves));
    } else give(start(2, true), end(2, true));
    give(end(3, arrives));
    give(start(3, leaves));
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
  const count = pieces.length;
  const value = (k: number, i: number, otherwise: number): number =>
    unknowns[places[k * PER_PIECE + i] ?? -1] ?? otherwise;
  return {
    nodes: nodes.map((node, k) => {
      const before = k > 0 ? k - 1 : count - 1;
      const isLast = k === count;
      return {
        ...node,
        x: isLast ? value(before, 4, node.x) : value(k, 0, node.x),
        y: isLast ? value(before, 5, node.y) : value(k, 1, node.y),
        out: value(k, 2, node.out),
        into: k === 0 && nodes.length > count ? node.into : value(before, 6, node.into),
      };
    }),
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
