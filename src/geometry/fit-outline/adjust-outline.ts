/**
 * Levenberg and Marquardt's least squares on the orthogonal distances of readings from a closed outline. Each reading keeps its piece and
 * its parameter there, which are put right by a step or two whenever the outline moves, and may pass to the next piece across a smooth
 * node. Moving the foot of the distance along the curve changes it in second order only, so that the unknowns alone are solved for.
 */
import { ADJUST_SETTLED, LEAST_DAMPING, MOST_DAMPING } from '../tolerance.ts';
import { plantFeet, POLYNOMIAL, polynomialsOf, type Feet } from './feet.ts';
import { layoutOf, modelWith, PER_PIECE, unknownsOf, type Layout, type OutlineModel } from './outline-model.ts';
import type { Ring } from './ring.ts';
import { solveSymmetric } from './solve-symmetric.ts';

const half = (row: number): number => (row * (row + 1)) / 2;

interface Equations {
  readonly matrix: Float64Array;
  readonly right: Float64Array;
  cost: number;
}

/** What the inner loop must know of a piece: whether it is straight, the directions at its ends, its handles. */
const PIECE = 7;

const pieceNumbers = ({ nodes, pieces }: OutlineModel): Float64Array => {
  const numbers = new Float64Array(PIECE * pieces.length);
  for (const [k, { straight, head, tail }] of pieces.entries()) {
    const [a, b] = [nodes[k]!, nodes[(k + 1) % nodes.length]!];
    const directions = [Math.cos(a.out), Math.sin(a.out), Math.cos(b.into), Math.sin(b.into)];
    numbers.set([Number(straight), ...directions, head, tail], k * PIECE);
  }
  return numbers;
};

/** For each piece the lower half of its own normal equations, row after row, and their right side. */
const SQUARE = half(PER_PIECE);

/**
 * Sums every reading's part into its piece's equations; gives the weighted squares. It knows nothing but numbers, as it is run many
 * thousand times on outlines that are built in many ways.
 */
const sumReadings = (
  count: number,
  weights: Float64Array,
  feetOn: Int32Array,
  parameters: Float64Array,
  offs: Float64Array,
  poly: Float64Array,
  numbers: Float64Array,
  squares: Float64Array,
  gradients: Float64Array,
): number => {
  const j = new Float64Array(PER_PIECE);
  let cost = 0;
  for (let i = 0; i < count; i += 1) {
    const w = weights[i]!;
    if (w === 0) continue;
    const k = feetOn[i]!;
    const t = parameters[i]!;
    const o = k * POLYNOMIAL;
    const dx = poly[o + 1]! + t * (2 * poly[o + 2]! + t * 3 * poly[o + 3]!);
    const dy = poly[o + 5]! + t * (2 * poly[o + 6]! + t * 3 * poly[o + 7]!);
    const speed = Math.sqrt(dx * dx + dy * dy);
    if (speed === 0) continue;
    const nx = -dy / speed;
    const ny = dx / speed;
    const u = 1 - t;
    const b1 = 3 * u * u * t;
    const b2 = 3 * u * t * t;
    const n = k * PIECE;
    const straight = numbers[n] === 1;
    const first = straight ? u : u * u * u + b1;
    const last = 1 - first;
    j[0] = first * nx;
    j[1] = first * ny;
    j[4] = last * nx;
    j[5] = last * ny;
    if (straight) j[2] = j[3] = j[6] = j[7] = 0;
    else {
      const sx = numbers[n + 1]!;
      const sy = numbers[n + 2]!;
      const ex = numbers[n + 3]!;
      const ey = numbers[n + 4]!;
      j[2] = b1 * numbers[n + 5]! * (sx * ny - sy * nx);
      j[3] = b1 * (sx * nx + sy * ny);
      j[6] = -b2 * numbers[n + 6]! * (ex * ny - ey * nx);
      j[7] = -b2 * (ex * nx + ey * ny);
    }
    const off = offs[i]!;
    cost += w * off * off;
    let at = k * SQUARE;
    for (let a = 0; a < PER_PIECE; a += 1) {
      const wa = w * j[a]!;
      gradients[k * PER_PIECE + a]! += wa * off;
      for (let b = 0; b <= a; b += 1, at += 1) squares[at]! += wa * j[b]!;
    }
  }
  return cost;
};

/** The normal equations at the feet, of weighted squares. */
const gather = (
  ring: Ring,
  weights: Float64Array,
  model: OutlineModel,
  layout: Layout,
  feet: Feet,
  equations: Equations,
): void => {
  const { matrix, right } = equations;
  const { size, places } = layout;
  const pieces = model.pieces.length;
  const squares = new Float64Array(SQUARE * pieces);
  const gradients = new Float64Array(PER_PIECE * pieces);
  const [poly, numbers] = [polynomialsOf(model), pieceNumbers(model)];
  equations.cost = sumReadings(ring.count, weights, feet.piece, feet.t, feet.off, poly, numbers, squares, gradients);
  matrix.fill(0);
  right.fill(0);
  for (let k = 0; k < pieces; k += 1) {
    for (let a = 0; a < PER_PIECE; a += 1) {
      const row = places[k * PER_PIECE + a]!;
      if (row < 0) continue;
      right[row]! += gradients[k * PER_PIECE + a]!;
      for (let b = 0; b < PER_PIECE; b += 1) {
        const column = places[k * PER_PIECE + b]!;
        if (column >= 0) matrix[row * size + column]! += squares[k * SQUARE + (a >= b ? half(a) + b : half(b) + a)]!;
      }
    }
  }
};

/** Handles are held between these shares of the chord. */
const SHORTEST = 0.06;
const LONGEST = 0.85;

const heldHandles = (model: OutlineModel): OutlineModel => ({
  nodes: model.nodes,
  pieces: model.pieces.map((piece, k) => {
    if (piece.straight) return piece;
    const [a, b] = [model.nodes[k]!, model.nodes[(k + 1) % model.nodes.length]!];
    const chord = Math.hypot(b.x - a.x, b.y - a.y);
    const held = (h: number): number =>
      model.pieces.length === 1 && model.nodes.length === 1
        ? h
        : Math.min(LONGEST * chord, Math.max(SHORTEST * chord, h));
    return { ...piece, head: held(piece.head), tail: held(piece.tail) };
  }),
});

/**
 * A little of each cubic's handles is drawn towards a third of its length: as much as one reading that is `sigma` off would, so that a
 * straight cubic, on which handles do nothing, has handles all the same.
 */
const drawHandles = (model: OutlineModel, { size, places }: Layout, equations: Equations, sigma: number): void => {
  for (const [k, piece] of model.pieces.entries()) {
    if (piece.straight) continue;
    const [a, b] = [model.nodes[k]!, model.nodes[(k + 1) % model.nodes.length]!];
    const third = Math.max(Math.hypot(b.x - a.x, b.y - a.y), sigma) / 3;
    const weight = (sigma / third) ** 2;
    // A node that no reading holds in place stays where it is.
    for (const i of [0, 1, 4, 5]) {
      const place = places[k * PER_PIECE + i]!;
      equations.matrix[place * size + place]! += weight;
    }
    for (const [i, value] of [
      [3, piece.head],
      [7, piece.tail],
    ] as const) {
      const place = places[k * PER_PIECE + i]!;
      const off = third - value;
      equations.cost += weight * off * off;
      equations.right[place]! += weight * off;
      equations.matrix[place * size + place]! += weight;
    }
  }
};

/** The outline has settled when a round lessens the squares by less than this share of one reading's. */
const SETTLED_SQUARES = 0.1;

/** Nodes move by at most this share of the shorter piece at a time. */
const LONGEST_MOVE = 0.3;

const shareOf = (model: OutlineModel, { places }: Layout, step: Float64Array): number => {
  let share = 1;
  for (let k = 0; k < model.pieces.length; k += 1) {
    const [a, b] = [model.nodes[k]!, model.nodes[(k + 1) % model.nodes.length]!];
    const most = LONGEST_MOVE * Math.hypot(b.x - a.x, b.y - a.y);
    for (const i of [0, 4]) {
      const moved = Math.hypot(step[places[k * PER_PIECE + i]!]!, step[places[k * PER_PIECE + i + 1]!]!);
      if (moved * share > most && most > 0) share = most / moved;
    }
  }
  return share;
};

/**
 * An open chain's ends would slide along it, where no reading holds them: along their direction they are held to where they began, by a
 * weight like that of all readings together.
 */
const holdEnds = (
  start: OutlineModel,
  now: OutlineModel,
  layout: Layout,
  equations: Equations,
  weight: number,
): void => {
  const { matrix, right } = equations;
  const { size, places } = layout;
  const last = start.pieces.length;
  if (start.nodes.length === last) return;
  const hold = (place: number, k: number, direction: number): void => {
    const d = [Math.cos(direction), Math.sin(direction)];
    const off = (start.nodes[k]!.x - now.nodes[k]!.x) * d[0]! + (start.nodes[k]!.y - now.nodes[k]!.y) * d[1]!;
    equations.cost += weight * off * off;
    for (const i of [0, 1]) {
      right[place + i]! += weight * off * d[i]!;
      for (const j of [0, 1]) matrix[(place + i) * size + place + j]! += weight * d[i]! * d[j]!;
    }
  };
  hold(places[0]!, 0, start.nodes[0]!.out);
  hold(places[(last - 1) * PER_PIECE + 4]!, last, start.nodes[last]!.into);
};

/** The outline moved to where the weighted squares of the readings' distances are least, in at most `rounds` rounds. */
export const adjustOutline = (
  ring: Ring,
  weights: Float64Array,
  start: OutlineModel,
  feet: Feet,
  sigma: number,
  rounds: number,
): OutlineModel => {
  const layout = layoutOf(start);
  const { size } = layout;
  const fresh = (): Equations => ({ matrix: new Float64Array(size * size), right: new Float64Array(size), cost: 0 });
  let [now, tried] = [fresh(), fresh()];
  const [matrix, step] = [new Float64Array(size * size), new Float64Array(size)];
  const total = weights.reduce((sum, w) => sum + w, 0);
  const look = (model: OutlineModel, equations: Equations): void => {
    plantFeet(ring, model, feet, 2);
    gather(ring, weights, model, layout, feet, equations);
    drawHandles(model, layout, equations, sigma);
    holdEnds(start, model, layout, equations, total);
  };
  let model = heldHandles(start);
  look(model, now);
  let damping = LEAST_DAMPING * 1000;
  for (let round = 0; round < rounds; round += 1) {
    matrix.set(now.matrix);
    step.set(now.right);
    for (let i = 0; i < size; i += 1) matrix[i * size + i]! += damping * matrix[i * size + i]! + Number.EPSILON;
    if (solveSymmetric(matrix, step, size)) {
      const unknowns = unknownsOf(model, layout);
      const share = shareOf(model, layout, step);
      for (let i = 0; i < size; i += 1) unknowns[i]! += share * step[i]!;
      const moved = heldHandles(modelWith(model, layout, unknowns));
      look(moved, tried);
      if (tried.cost < now.cost) {
        const gained = now.cost - tried.cost;
        model = moved;
        [now, tried] = [tried, now];
        damping = Math.max(LEAST_DAMPING, damping / 10);
        if (gained < Math.max(ADJUST_SETTLED * now.cost, SETTLED_SQUARES * sigma * sigma)) break;
        continue;
      }
    }
    if (damping > MOST_DAMPING) break;
    damping *= 10;
  }
  plantFeet(ring, model, feet, 2);
  return model;
};
