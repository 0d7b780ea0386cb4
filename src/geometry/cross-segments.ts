/**
 * Where two segments cross. A line against anything is solved in closed form or by exact roots; two cubics by halving both while
 * their boxes meet, then by Newton's steps from each pair that is left. The work is bounded: curves that run along each other
 * for a stretch answer with the ends of that stretch.
 */
import { boxesMeet, looseBox, type Box } from './box.ts';
import { derivativeOn, pointOn } from './evaluate.ts';
import { nearestPoint } from './nearest-point.ts';
import { distance, type Point } from './point.ts';
import type { Cubic, Line, Segment } from './segment.ts';
import { rootsOf } from './solve-roots.ts';
import { halveCubic } from './split.ts';
import { CROSSING_TOLERANCE, DAMPING, SAME_POINT, SEED_SHARE } from './tolerance.ts';
import { cross, dot, leftNormal, magnitude, unit, vectorTo } from './vector.ts';

/** Parameters on the one and on the other. */
export interface Meeting {
  readonly t: number;
  readonly u: number;
}

/** Two cubics meet in no more places than this (Bezout) unless they run along each other. */
const MOST_MEETINGS = 9;
const MAX_PAIRS = 20_000;
const MAX_SEEDS = 200;
const MAX_STEPS = 30;

const clamp = (t: number): number => Math.min(1, Math.max(0, t));

/** Ends of the one that lie on the other: all there is to say of pieces that run along each other. */
const endsOnOther = (a: Segment, b: Segment): Meeting[] => {
  const onB = [0, 1].map((t) => ({ t, near: nearestPoint({ segments: [b] }, pointOn(a, t)) }));
  const onA = [0, 1].map((u) => ({ u, near: nearestPoint({ segments: [a] }, pointOn(b, u)) }));
  return [
    ...onB.filter((e) => e.near.distance <= CROSSING_TOLERANCE).map((e) => ({ t: e.t, u: e.near.location.t })),
    ...onA.filter((e) => e.near.distance <= CROSSING_TOLERANCE).map((e) => ({ t: e.near.location.t, u: e.u })),
  ];
};

/** A line against a line or a cubic: the roots of the other's height over the line. */
const crossLine = (a: Line, b: Segment): Meeting[] => {
  const along = vectorTo(a.start, a.end);
  const length = magnitude(along);
  if (length === 0) return endsOnOther(a, b);
  const controls = b.kind === 'line' ? [b.start, b.end] : [b.start, b.startHandle, b.endHandle, b.end];
  const heights = controls.map((p) => cross(along, vectorTo(a.start, p)) / length);
  if (heights.every((h) => Math.abs(h) <= CROSSING_TOLERANCE)) return endsOnOther(a, b);
  const met = rootsOf(heights).map((u) => ({ t: dot(along, vectorTo(a.start, pointOn(b, u))) / (length * length), u }));
  const slack = CROSSING_TOLERANCE / length;
  const inside = met.filter(({ t }) => t >= -slack && t <= 1 + slack).map(({ t, u }) => ({ t: clamp(t), u }));
  return [...inside, ...endsOnOther(a, b)];
};

/** Newton's steps for a(t) = b(u), within [0, 1]; where the two run parallel, steps of least squares. Undefined when they do not meet. */
const polish = (a: Segment, b: Segment, t0: number, u0: number): Meeting | undefined => {
  let [t, u] = [t0, u0];
  for (let step = 0; step < MAX_STEPS; step += 1) {
    const gap = vectorTo(pointOn(a, t), pointOn(b, u));
    const [p, q] = [derivativeOn(a, t), derivativeOn(b, u)];
    const [pp, qq, pq] = [dot(p, p), dot(q, q), dot(p, q)];
    const damping = DAMPING * (pp + qq);
    const [g, h] = [dot(p, gap), -dot(q, gap)];
    const determinant = (pp + damping) * (qq + damping) - pq * pq;
    if (determinant === 0) break;
    const nextT = clamp(t + ((qq + damping) * g + pq * h) / determinant);
    const nextU = clamp(u + ((pp + damping) * h + pq * g) / determinant);
    const still = Math.abs(nextT - t) + Math.abs(nextU - u) <= 4 * Number.EPSILON;
    [t, u] = [nextT, nextU];
    if (still) break;
  }
  return distance(pointOn(a, t), pointOn(b, u)) <= CROSSING_TOLERANCE ? { t, u } : undefined;
};

interface Part {
  readonly piece: Cubic;
  readonly box: Box;
  /** The longer side of its box. */
  readonly size: number;
  readonly from: number;
  readonly to: number;
}

const partOf = (piece: Cubic, from: number, to: number): Part => {
  const box = looseBox(piece);
  return { piece, box, size: Math.max(box.maxX - box.minX, box.maxY - box.minY), from, to };
};

const halves = ({ piece, from, to }: Part): Part[] => {
  const [head, tail] = halveCubic(piece);
  const middle = (from + to) / 2;
  return [partOf(head, from, middle), partOf(tail, middle, to)];
};

/** Whether one lies beside the other, as seen along the chord of the first: tells curves apart that run side by side. */
const liesBeside = (p: Cubic, q: Cubic): boolean => {
  const { start } = p;
  const normal = leftNormal(unit(vectorTo(start, p.end)));
  const off = ({ x, y }: Point): number => (x - start.x) * normal.dx + (y - start.y) * normal.dy;
  const [a, b, c] = [off(p.startHandle), off(p.endHandle), off(p.end)];
  const [d, e, f, g] = [off(q.start), off(q.startHandle), off(q.endHandle), off(q.end)];
  return (
    Math.min(d, e, f, g) > Math.max(0, a, b, c) + CROSSING_TOLERANCE ||
    Math.max(d, e, f, g) < Math.min(0, a, b, c) - CROSSING_TOLERANCE
  );
};

const isKnown = (found: readonly Meeting[], p: Part, q: Part): boolean => {
  const [slackP, slackQ] = [p.to - p.from, q.to - q.from];
  return found.some(
    ({ t, u }) => t >= p.from - slackP && t <= p.to + slackP && u >= q.from - slackQ && u <= q.to + slackQ,
  );
};

const crossCubics = (a: Cubic, b: Cubic): Meeting[] => {
  const [wholeA, wholeB] = [partOf(a, 0, 1), partOf(b, 0, 1)];
  const small = Math.max(SEED_SHARE * Math.max(wholeA.size, wholeB.size), SAME_POINT);
  const found: Meeting[] = [];
  const pairs: [Part, Part][] = [[wholeA, wholeB]];
  let seeds = 0;
  for (let seen = 0; pairs.length > 0 && seen < MAX_PAIRS && seeds < MAX_SEEDS; seen += 1) {
    const [p, q] = pairs.pop()!;
    if (!boxesMeet(p.box, q.box, CROSSING_TOLERANCE)) continue;
    if (liesBeside(p.piece, q.piece) || liesBeside(q.piece, p.piece)) continue;
    if (Math.max(p.size, q.size) > small) {
      if (p.size >= q.size) for (const part of halves(p)) pairs.push([part, q]);
      else for (const part of halves(q)) pairs.push([p, part]);
      continue;
    }
    if (isKnown(found, p, q)) continue;
    seeds += 1;
    const met = polish(a, b, (p.from + p.to) / 2, (q.from + q.to) / 2);
    if (met !== undefined && !found.some((f) => Math.abs(f.t - met.t) + Math.abs(f.u - met.u) < SEED_SHARE)) {
      found.push(met);
    }
    if (found.length > MOST_MEETINGS) return endsOnOther(a, b);
  }
  return [...found, ...endsOnOther(a, b)];
};

/** All places where the two meet, touches and shared ends included; the same place may come more than once. */
export const crossSegments = (a: Segment, b: Segment): Meeting[] => {
  if (!boxesMeet(looseBox(a), looseBox(b), CROSSING_TOLERANCE)) return [];
  if (a.kind === 'line') return crossLine(a, b);
  if (b.kind === 'line') return crossLine(b, a).map(({ t, u }) => ({ t: u, u: t }));
  return crossCubics(a, b);
};

/** Where a cubic meets itself, first place first: at most once, from the sum and the product of the two parameters. */
export const crossItself = (s: Segment): Meeting | undefined => {
  if (s.kind === 'line') return undefined;
  const { start: p, startHandle: q, endHandle: r, end } = s;
  const c = { dx: 3 * (q.x - p.x), dy: 3 * (q.y - p.y) };
  const b = { dx: 3 * (p.x - 2 * q.x + r.x), dy: 3 * (p.y - 2 * q.y + r.y) };
  const a = { dx: end.x - p.x + 3 * (q.x - r.x), dy: end.y - p.y + 3 * (q.y - r.y) };
  const [square, turning] = [dot(a, a), cross(b, a)];
  if (square === 0 || turning === 0) return undefined;
  const sum = -cross(c, a) / turning;
  const product = (sum * sum * square + sum * dot(b, a) + dot(c, a)) / square;
  const root = sum * sum - 4 * product;
  if (!(root > 0)) return undefined;
  const [t, u] = [(sum - Math.sqrt(root)) / 2, (sum + Math.sqrt(root)) / 2];
  if (!(t >= -CROSSING_TOLERANCE && u <= 1 + CROSSING_TOLERANCE)) return undefined;
  return { t: clamp(t), u: clamp(u) };
};
