/**
 * Cubics along any smooth curve, as few as reach a tolerance. Each keeps the ends and end tangents exactly, which leaves two handle lengths;
 * they are found by least squares on the distance along the curve's normals, correcting each sample's parameter before every step
 * (Plass and Stone, 1983, with Gauss-Newton in place of plain least squares). The error falls with the sixth power of the piece's length,
 * which says into how many pieces to divide what does not fit.
 */
import { derivativeOn, pointOn } from './evaluate.ts';
import { distance, movePoint, type Point } from './point.ts';
import { cubic, type Cubic } from './segment.ts';
import { CROSSING_TOLERANCE, DAMPING, NEARBY, SHORTEST_HANDLE, STILL } from './tolerance.ts';
import { dot, leftNormal, magnitude, scaled, unit, vectorTo, type Vector } from './vector.ts';

export interface Curve {
  readonly point: (t: number) => Point;
  readonly derivative: (t: number) => Vector;
}

const SAMPLES = 16;
const MAX_ROUNDS = 24;
const MAX_DEPTH = 8;
const MAX_PIECES = 8;
/** Where some of the equal pieces do not fit, so many more equal ones are tried beside dividing only those. */
const MORE_PIECES = 2;

/** As a part of the curve's length: on a nearly straight curve any handle would fit, and one of over 0.8 could run backwards. */
const LONGEST_HANDLE = 0.8;

interface Sample {
  readonly at: Point;
  readonly tangent: Vector;
  readonly normal: Vector;
  /** How far along the normal the directions at the two ends go. */
  readonly first: number;
  readonly last: number;
}

/** The direction of travel; where the curve stands still, that of the chord to a place a little further inside. */
const directionAt = (curve: Curve, t: number, inner: number): Vector => {
  const derivative = curve.derivative(t);
  const near = t + (inner - t) * NEARBY;
  const chord = t < inner ? vectorTo(curve.point(t), curve.point(near)) : vectorTo(curve.point(near), curve.point(t));
  return magnitude(derivative) * Math.abs(near - t) > magnitude(chord) * NEARBY ? unit(derivative) : unit(chord);
};

/** The parameter on `c` where it passes the sample's normal, from a guess: Newton's steps. */
const correct = (c: Cubic, sample: Sample, guess: number): number => {
  let u = guess;
  for (let step = 0; step < 3; step += 1) {
    const speed = dot(derivativeOn(c, u), sample.tangent);
    if (speed <= 0) break;
    const next = Math.min(1, Math.max(0, u - dot(vectorTo(sample.at, pointOn(c, u)), sample.tangent) / speed));
    if (Math.abs(next - u) < STILL) return next;
    u = next;
  }
  return u;
};

/** One cubic for the stretch, and the largest distance found between the two at twice as many places as it was fitted to. */
export const fitCubic = (curve: Curve, from: number, to: number): { readonly cubic: Cubic; readonly error: number } => {
  const [start, end] = [curve.point(from), curve.point(to)];
  const middle = (from + to) / 2;
  const [first, last] = [directionAt(curve, from, middle), directionAt(curve, to, middle)];
  const samples: Sample[] = [];
  for (let i = 1; i < 2 * SAMPLES; i += 1) {
    const t = from + ((to - from) * i) / (2 * SAMPLES);
    const tangent = unit(curve.derivative(t));
    const normal = leftNormal(tangent);
    samples.push({ at: curve.point(t), tangent, normal, first: dot(first, normal), last: dot(last, normal) });
  }
  const nodes = [start, ...samples.map((s) => s.at), end];
  const lengths = nodes.map(() => 0);
  for (let i = 1; i < nodes.length; i += 1) lengths[i] = lengths[i - 1]! + distance(nodes[i - 1]!, nodes[i]!);
  const total = lengths.at(-1)!;
  const drawn = (head: number, tail: number): Cubic =>
    cubic(start, movePoint(start, scaled(first, head)), movePoint(end, scaled(last, -tail)), end);
  if (total === 0) return { cubic: drawn(0, 0), error: 0 };

  const [shortest, longest] = [total * SHORTEST_HANDLE, total * LONGEST_HANDLE];
  const parameters = samples.map((_, i) => lengths[i + 1]! / total);
  let [head, tail] = [total / 3, total / 3];
  let best = { cubic: drawn(head, tail), error: Infinity };
  for (let round = 0; round < MAX_ROUNDS; round += 1) {
    const c = drawn(head, tail);
    let [hh, ht, tt, hr, tr, error] = [0, 0, 0, 0, 0, 0];
    for (const [i, sample] of samples.entries()) {
      const u = correct(c, sample, parameters[i]!);
      parameters[i] = u;
      const at = pointOn(c, u);
      // Along the sample's normal, and whatever is left across it.
      error = Math.max(error, distance(at, sample.at));
      const off = dot(vectorTo(at, sample.at), sample.normal);
      const h = 3 * (1 - u) * (1 - u) * u * sample.first;
      const k = -3 * (1 - u) * u * u * sample.last;
      hh += h * h;
      ht += h * k;
      tt += k * k;
      hr += h * off;
      tr += k * off;
    }
    const gained = error < best.error * 0.99;
    if (error < best.error) best = { cubic: c, error };
    if ((!gained && round > 3) || error <= CROSSING_TOLERANCE) break;
    const damping = DAMPING * (hh + tt) + Number.MIN_VALUE;
    const determinant = (hh + damping) * (tt + damping) - ht * ht;
    const step = {
      head: ((tt + damping) * hr - ht * tr) / determinant,
      tail: ((hh + damping) * tr - ht * hr) / determinant,
    };
    if (!Number.isFinite(step.head + step.tail)) break;
    const most = total / 4;
    head = Math.min(longest, Math.max(shortest, head + Math.min(most, Math.max(-most, step.head))));
    tail = Math.min(longest, Math.max(shortest, tail + Math.min(most, Math.max(-most, step.tail))));
    if (Math.abs(step.head) + Math.abs(step.tail) < CROSSING_TOLERANCE * total) break;
  }
  return best;
};

/** Equal parts of a stretch, the last ending exactly where it does. */
const divide = (from: number, to: number, parts: number): [number, number][] => {
  const cut = (i: number): number => (i === parts ? to : from + ((to - from) * i) / parts);
  return Array.from({ length: parts }, (_, i) => [cut(i), cut(i + 1)]);
};

/**
 * Cubics end to end along a smooth curve from parameter `from` to `to`, each within `tolerance` millimetres of it, joined with the
 * curve's own tangents; the first and last points are the curve's exactly. A curve with corners should be cut there first: across one
 * the pieces get small, and after 8 halvings the nearest fit is taken as it is. A stretch that is one point gives one such cubic.
 */
export const fitCubics = (curve: Curve, from: number, to: number, tolerance: number): Cubic[] => {
  const fit = (a: number, b: number, depth: number): Cubic[] => {
    const whole = fitCubic(curve, a, b);
    if (whole.error <= tolerance || depth === 0) return [whole.cubic];
    const fewest = Math.min(MAX_PIECES, 2 ** depth, Math.max(2, Math.ceil((whole.error / tolerance) ** (1 / 6))));
    const spent = Math.max(1, Math.round(Math.log2(fewest)));
    const again = divide(a, b, fewest).flatMap(([low, high]) => fit(low, high, depth - spent));
    const most = Math.min(MAX_PIECES, fewest + MORE_PIECES, again.length - 1);
    for (let pieces = fewest + 1; pieces <= most; pieces += 1) {
      const even = divide(a, b, pieces).map(([low, high]) => fitCubic(curve, low, high));
      if (even.every(({ error }) => error <= tolerance)) return even.map((piece) => piece.cubic);
    }
    return again;
  };
  return fit(from, to, MAX_DEPTH);
};
