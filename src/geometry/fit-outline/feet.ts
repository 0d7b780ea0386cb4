import { pointsOfPiece, type OutlineModel } from './outline-model.ts';
import type { Ring } from './ring.ts';

/** Where the readings of a ring's middle copy lie on an outline, and by how much beside it. */
export interface Feet {
  readonly piece: Int32Array;
  readonly t: Float64Array;
  /** Signed distance from the outline, to the right of its direction. */
  readonly off: Float64Array;
}

/** First guesses of the feet, from how far along readings and nodes lie. Nodes are in order along the ring. */
export const feetFor = (ring: Ring, { nodes, pieces }: OutlineModel): Feet => {
  const { count, total } = ring;
  const feet = { piece: new Int32Array(count), t: new Float64Array(count), off: new Float64Array(count) };
  let k = pieces.length - 1;
  let next = 0;
  for (let i = 0; i < count; i += 1) {
    const along = ring.along[count + i]!;
    while (next < pieces.length && nodes[next]!.along <= along) {
      k = next;
      next += 1;
    }
    const from = nodes[k]!.along;
    const length = (nodes[(k + 1) % nodes.length]!.along - from + total) % total || total;
    feet.piece[i] = k;
    feet.t[i] = Math.min(1, ((along - from + total) % total) / length);
  }
  return feet;
};

export const POLYNOMIAL = 8;

/** Coefficients of each piece as a polynomial of its parameter: x then y, four each. */
export const polynomialsOf = (model: OutlineModel): Float64Array => {
  const p = new Float64Array(POLYNOMIAL * model.pieces.length);
  for (let k = 0; k < model.pieces.length; k += 1) {
    const q = pointsOfPiece(model, k);
    for (const axis of [0, 1]) {
      const [a, b, c, d] = [q[axis]!, q[axis + 2]!, q[axis + 4]!, q[axis + 6]!];
      const at = k * POLYNOMIAL + axis * 4;
      p[at] = a;
      p[at + 1] = 3 * (b - a);
      p[at + 2] = 3 * (a - 2 * b + c);
      p[at + 3] = d - a + 3 * (b - c);
    }
  }
  return p;
};

/** A piece's parameter is put right by at most so much at a time. */
const LONGEST_STEP = 0.2;

/** Puts the feet right for the outline as it is now, by so many steps. */
export const plantFeet = (ring: Ring, model: OutlineModel, feet: Feet, steps: number): void => {
  const isCorner = Uint8Array.from(model.nodes, (node) => Number(node.corner));
  plantEach(ring.x, ring.y, ring.count, polynomialsOf(model), isCorner, model.pieces.length, feet, steps);
};

/** The inner loop knows nothing but numbers: it is run many thousand times on outlines that are built in many ways. */
const plantEach = (
  xs: Float64Array,
  ys: Float64Array,
  count: number,
  poly: Float64Array,
  isCorner: Uint8Array,
  pieces: number,
  { piece, t: parameter, off }: Feet,
  steps: number,
): void => {
  const nodes = isCorner.length;
  for (let i = 0; i < count; i += 1) {
    const px = xs[count + i]!;
    const py = ys[count + i]!;
    let k = piece[i]!;
    let t = parameter[i]!;
    let moves = 0;
    for (let step = 0; step <= steps; step += 1) {
      const o = k * POLYNOMIAL;
      const x = poly[o]! + t * (poly[o + 1]! + t * (poly[o + 2]! + t * poly[o + 3]!)) - px;
      const y = poly[o + 4]! + t * (poly[o + 5]! + t * (poly[o + 6]! + t * poly[o + 7]!)) - py;
      const dx = poly[o + 1]! + t * (2 * poly[o + 2]! + t * 3 * poly[o + 3]!);
      const dy = poly[o + 5]! + t * (2 * poly[o + 6]! + t * 3 * poly[o + 7]!);
      const speed = dx * dx + dy * dy;
      if (step === steps) {
        off[i] = speed > 0 ? (dx * -y - dy * -x) / Math.sqrt(speed) : Math.hypot(x, y);
        break;
      }
      if (speed === 0) continue;
      t -= Math.max(-LONGEST_STEP, Math.min(LONGEST_STEP, (x * dx + y * dy) / speed));
      if (t > 1) {
        const next = (k + 1) % nodes;
        if (isCorner[next] === 0 && moves < 2) {
          k = next;
          moves += 1;
          t = Math.min(0.5, t - 1);
          step = Math.min(step, steps - 2);
        } else t = 1;
      } else if (t < 0) {
        const previous = (k + pieces - 1) % pieces;
        if (isCorner[k] === 0 && moves < 2) {
          k = previous;
          moves += 1;
          t = Math.max(0.5, 1 + t);
          step = Math.min(step, steps - 2);
        } else t = 0;
      }
    }
    piece[i] = k;
    parameter[i] = t;
  }
};
