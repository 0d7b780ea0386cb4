/**
 * Corners of a noisy outline. On both sides of a place a parabola is laid through the readings, leaving out those within `blunt`, where a
 * corner's readings are worn. Where the two parabolas, carried on, meet, their directions are compared: on a smooth curve, however
 * tight, they agree there, at a corner they do not. Each place found is looked at again from the meeting itself until it stands still, so
 * that one corner is found once, from the best place to see it.
 */
import type { Noise } from './measure-noise.ts';
import { fitLocally, type LocalFit } from './local-fit.ts';
import type { Point } from '../point.ts';
import { firstFrom, roundTo, type Ring } from './ring.ts';
import { CROSSING_TOLERANCE } from '../tolerance.ts';

export interface FoundCorner extends Point {
  /** How far along the ring. */
  readonly along: number;
  /** Directions of travel that arrive at the corner and leave it, radians. */
  readonly into: number;
  readonly out: number;
  /** The turn between them, in (-pi, pi], and how many times its doubt it is. */
  readonly turn: number;
  readonly sure: number;
}

/** Lengths of a side that are tried, the longest that a parabola fits wins: it knows its direction best. */
const SIDES_MM = [1.8, 2.6, 4];
/** How far a side may reach for readings where some are missing. */
const REACH_MM = 6.5;
/** A side is no smooth curve where its readings lie this many times the noise off, and this much more, mm, and pixels: clean readings still err by that. */
const MISFIT = 2;
const MISFIT_MM = 0.004;
const MISFIT_PX = 0.05;
/** Chords turn at least this much at a place worth looking at; a corner turns so much, is so many times its doubt. */
const WORTH = 0.08;
const LEAST_TURN = 0.13;
const SURE = 4.5;
/** Corners nearer to each other than this are one. */
const APART_MM = 1.5;

export const turnBetween = (from: number, to: number): number => {
  const turn = (to - from) % (2 * Math.PI);
  return turn > Math.PI ? turn - 2 * Math.PI : turn <= -Math.PI ? turn + 2 * Math.PI : turn;
};

export interface CornerSearch {
  readonly ring: Ring;
  readonly noise: Noise;
  readonly pxPerMm: number;
  readonly blunt: number;
}

/** The longest stretch from `along` forwards or backwards (-1) that a parabola fits. */
const sideFrom = ({ ring, noise, pxPerMm }: CornerSearch, along: number, sense: 1 | -1): LocalFit | undefined => {
  let best: LocalFit | undefined;
  let before = 0;
  for (const mm of SIDES_MM) {
    const wanted = Math.max(6, Math.round((mm * pxPerMm) / ring.spacing));
    const start = firstFrom(ring, along);
    let [first, end] = sense > 0 ? [start, start + wanted] : [start - wanted, start];
    const reach = REACH_MM * pxPerMm;
    while (first < end && ring.along[first]! < along - reach) first += 1;
    while (first < end && ring.along[end - 1]! > along + reach) end -= 1;
    if (first < 0 || end > ring.along.length || end - first < wanted / 2 || end - first <= before) continue;
    before = end - first;
    const fit = fitLocally(ring, first, end, 2);
    if (fit === undefined) continue;
    if (best !== undefined && fit.spread > 1.15 * Math.max(best.spread, noise.sigma)) break;
    best = fit;
  }
  return best;
};

interface OnSide {
  readonly x: number;
  readonly y: number;
  readonly angle: number;
}

const onSide = (fit: LocalFit, u: number): OnSide => {
  const v = fit.c[0]! + u * (fit.c[1]! + u * fit.c[2]!);
  const slope = fit.c[1]! + 2 * u * fit.c[2]!;
  return {
    x: fit.x + u * fit.dx - v * fit.dy,
    y: fit.y + u * fit.dy + v * fit.dx,
    angle: Math.atan2(fit.dy, fit.dx) + Math.atan(slope),
  };
};

const alongSide = (fit: LocalFit, p: Point): number => (p.x - fit.x) * fit.dx + (p.y - fit.y) * fit.dy;

/** The variance of the slope at u, for readings of variance 1. */
const slopeDoubt = ({ doubt }: LocalFit, u: number): number => doubt[4]! + 4 * u * doubt[5]! + 4 * u * u * doubt[8]!;

const MEETING_ROUNDS = 12;

/** Where the curves of the two sides, carried on, cross each other: Newton's steps along their tangents. */
const meetingOf = (left: LocalFit, right: LocalFit): { u: number; w: number } | undefined => {
  const [ends, begins] = [onSide(left, left.to), onSide(right, right.from)];
  const middle = { x: (ends.x + begins.x) / 2, y: (ends.y + begins.y) / 2 };
  let [u, w] = [alongSide(left, middle), alongSide(right, middle)];
  if (Math.abs(turnBetween(onSide(left, u).angle, onSide(right, w).angle)) < WORTH) return undefined;
  const longest = 3 * (left.to - left.from + right.to - right.from);
  for (let round = 0; round < MEETING_ROUNDS; round += 1) {
    const [a, b] = [onSide(left, u), onSide(right, w)];
    const [ax, ay] = [Math.cos(a.angle), Math.sin(a.angle)];
    const [bx, by] = [Math.cos(b.angle), Math.sin(b.angle)];
    const crossed = ax * by - ay * bx;
    const [gx, gy] = [b.x - a.x, b.y - a.y];
    const du = (gx * by - gy * bx) / crossed;
    const dw = (gx * ay - gy * ax) / crossed;
    if (!(Math.abs(du) < longest && Math.abs(dw) < longest)) return undefined;
    u += du * Math.cos(a.angle - Math.atan2(left.dy, left.dx));
    w += dw * Math.cos(b.angle - Math.atan2(right.dy, right.dx));
    if (Math.abs(du) + Math.abs(dw) < CROSSING_TOLERANCE * longest) return { u, w };
  }
  return undefined;
};

/** What the two sides say when looked at from `along`; undefined where they do not meet near there, or are no smooth curves. */
const lookFrom = (search: CornerSearch, along: number): FoundCorner | undefined => {
  const { ring, noise, pxPerMm, blunt } = search;
  const left = sideFrom(search, along - blunt, -1);
  const right = sideFrom(search, along + blunt, 1);
  if (left === undefined || right === undefined) return undefined;
  const most = MISFIT * noise.sigma + MISFIT_MM * pxPerMm + MISFIT_PX;
  if (left.spread > most || right.spread > most) return undefined;
  const meeting = meetingOf(left, right);
  if (meeting === undefined) return undefined;
  const a = onSide(left, meeting.u);
  const b = onSide(right, meeting.w);
  const turn = turnBetween(a.angle, b.angle);
  const [past, before] = [meeting.u - left.to, right.from - meeting.w];
  const gap = firstGap(ring, along, blunt);
  const furthest = 3 * blunt + pxPerMm + gap;
  if (past < -blunt || before < -blunt || past > furthest || before > furthest) return undefined;
  const variance =
    slopeDoubt(left, meeting.u) * Math.max(left.spread, noise.sigma) ** 2 +
    slopeDoubt(right, meeting.w) * Math.max(right.spread, noise.sigma) ** 2;
  const sure = Math.abs(turn) / Math.sqrt(variance * noise.correlation);
  const place = nearestAlong(ring, along, a, furthest);
  return { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2, along: place, into: a.angle, out: b.angle, turn, sure };
};

/** How far apart the readings on both sides of the blunt stretch are, beyond the stretch itself. */
const firstGap = (ring: Ring, along: number, blunt: number): number => {
  const right = ring.along[firstFrom(ring, along + blunt)] ?? along;
  const left = ring.along[firstFrom(ring, along - blunt) - 1] ?? along;
  return Math.max(0, right - left - 2 * blunt);
};

/** How far along the point lies: as much further from the place before it as its distances to places before and after say. */
export const nearestAlong = (ring: Ring, along: number, p: Point, reach: number): number => {
  let [best, least] = [along, Infinity];
  const low = Math.max(0, firstFrom(ring, along - reach));
  const high = Math.min(ring.along.length - 1, firstFrom(ring, along + reach));
  for (let i = low; i < high; i += 1) {
    const [x, y] = [ring.x[i]!, ring.y[i]!];
    const [ex, ey] = [ring.x[i + 1]! - x, ring.y[i + 1]! - y];
    const length = ex * ex + ey * ey;
    if (length === 0) continue;
    const t = Math.min(1, Math.max(0, ((p.x - x) * ex + (p.y - y) * ey) / length));
    const off = Math.hypot(x + t * ex - p.x, y + t * ey - p.y);
    if (off < least) [best, least] = [ring.along[i]! + t * (ring.along[i + 1]! - ring.along[i]!), off];
  }
  return best;
};

const LOOKS = 4;

/** Looks from a place, then from where the corner seems to be, until that stands still. */
const settle = (search: CornerSearch, from: number): FoundCorner | undefined => {
  let along = from;
  let found: FoundCorner | undefined;
  for (let look = 0; look < LOOKS; look += 1) {
    const next = lookFrom(search, along);
    if (next === undefined) return undefined;
    found = next;
    const moved = Math.abs(next.along - along);
    along = roundTo(search.ring.total, next.along);
    if (moved < search.blunt / 8) break;
  }
  return found === undefined ? undefined : { ...found, along };
};

/** How much chords on both sides of a place of the thinned ring turn. */
const chordTurn = (thin: Ring, i: number, blunt: number, side: number): number => {
  const s = thin.along[i]!;
  const at = (along: number): number => Math.min(thin.along.length - 1, Math.max(0, firstFrom(thin, along)));
  const [a, b, c, d] = [at(s - blunt - side), at(s - blunt), at(s + blunt), at(s + blunt + side)];
  const into = Math.atan2(thin.y[b]! - thin.y[a]!, thin.x[b]! - thin.x[a]!);
  const out = Math.atan2(thin.y[d]! - thin.y[c]!, thin.x[d]! - thin.x[c]!);
  return Math.abs(turnBetween(into, out));
};

/** Beside the places where chords turn most, one so often is enough: whoever looks from near a corner is led to it. */
const LOOK_EVERY_MM = 0.7;

/** The places of the thinned ring from where a corner may be seen. */
const placesToLook = (thin: Ring, blunt: number, pxPerMm: number): number[] => {
  const turns = Float64Array.from({ length: thin.count }, (_, i) =>
    chordTurn(thin, thin.count + i, blunt, 2 * pxPerMm),
  );
  const stride = Math.max(1, Math.round((LOOK_EVERY_MM * pxPerMm) / thin.spacing));
  const places: number[] = [];
  for (let i = 0; i < thin.count; i += 1) {
    const turn = turns[i]!;
    if (turn < WORTH) continue;
    const isPeak = turn >= turns[(i + 1) % thin.count]! && turn > turns[(i + thin.count - 1) % thin.count]!;
    if (isPeak || i % stride === 0) places.push(thin.count + i);
  }
  return places;
};

/** The corner that is seen from a place where one was found before. */
export const cornerNear = (search: CornerSearch, guess: Point): FoundCorner | undefined => {
  const { ring } = search;
  return settle(search, roundTo(ring.total, nearestAlong(ring, ring.total / 2, guess, ring.total / 2)));
};

/** The corners of the ring in order along it, from its thinned copy's places and from `guesses`, where corners were found before. */
export const findCorners = (search: CornerSearch, thin: Ring, guesses: readonly Point[]): FoundCorner[] => {
  const { ring, pxPerMm, blunt } = search;
  const found: FoundCorner[] = [];
  for (const i of placesToLook(thin, blunt, pxPerMm)) {
    const corner = settle(search, thin.along[i]!);
    if (corner !== undefined) found.push(corner);
  }
  found.push(...guesses.flatMap((guess) => cornerNear(search, guess) ?? []));
  const good = found.filter((c) => Math.abs(c.turn) > LEAST_TURN && c.sure > SURE).toSorted((a, b) => b.sure - a.sure);
  const kept: FoundCorner[] = [];
  for (const corner of good) {
    const near = kept.some((other) => {
      const apart = Math.abs(other.along - corner.along);
      const straight = Math.hypot(other.x - corner.x, other.y - corner.y);
      return Math.min(apart, ring.total - apart, straight) < APART_MM * pxPerMm;
    });
    if (!near) kept.push(corner);
  }
  return kept.toSorted((a, b) => a.along - b.along);
};
