/**
 * V cuts in the edge of a cut-out piece, and little triangles left standing there, are notches: they are found on its rough polygon and
 * taken out. Each is a sharp turn between two straight sides of some millimetres, that end in two turns the other way, beyond which
 * the edge goes on along the line over its mouth. Wide mouths, bent sides and corners of the piece itself are none. Scissors leave
 * burrs: a turn beside the tip need not be where the side ends, nor the last of a side lie on its line (a barb bent over the mouth).
 */
import { distance, type Point } from '../../geometry/point.ts';
import type { RoughOutline } from '../rough-outline.ts';

export interface Cut {
  /** Where the edge breaks off and where it goes on, in the outline's order. */
  readonly mouth: readonly [Point, Point];
  readonly tip: Point;
}

/** Millimetres: the spacing at which the polygon is looked at, the reach of a turn, the lengths that a cut may have. */
const SPACING = 0.25;
const TURN_REACH = 1;
const WIDEST_MOUTH = 8;
const LEAST_DEPTH = 1.8;
const MOST_DEPTH = 12.5;
/** Radians: turns at the tip and at the mouth, at least; how far the edge beside a mouth may run off the line over it. */
const TIP_TURN = 0.6;
const MOUTH_TURN = 0.2;
const EDGE_OFF = 0.55;
/** Millimetres: how straight the sides are; what of the edge beside a mouth is looked at; how far corners are rounded off at most. */
const STRAIGHT = 0.3;
const BESIDE_FROM = 0.5;
const BESIDE_TO = 2.2;
const ROUNDED = 1.3;
/** Millimetres: what of a side is not looked at, beside the tip and beside the mouth, where a barb may hang; and how long that barb is. */
const BESIDE_TIP = 0.75;
const BESIDE_MOUTH = 2;
const BARB = 2.5;
/** So many turns on either side of a tip may be the end of its side. */
const MOST_CORNERS = 3;
/** One side is at most so many times as long as the other. */
const UNEVEN = 2;

interface Axis {
  readonly at: Point;
  readonly dx: number;
  readonly dy: number;
  /** The farthest of its points. */
  readonly off: number;
}

/** The line of least squared distances through points, going from the first to the last. */
const axisOf = (points: readonly Point[]): Axis => {
  const n = points.length;
  const at = { x: points.reduce((s, p) => s + p.x, 0) / n, y: points.reduce((s, p) => s + p.y, 0) / n };
  let [xx, xy, yy] = [0, 0, 0];
  for (const p of points) {
    xx += (p.x - at.x) ** 2;
    xy += (p.x - at.x) * (p.y - at.y);
    yy += (p.y - at.y) ** 2;
  }
  const angle = Math.atan2(2 * xy, xx - yy) / 2;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const way = c * (points[n - 1]!.x - points[0]!.x) + s * (points[n - 1]!.y - points[0]!.y) < 0 ? -1 : 1;
  const off = Math.max(...points.map((p) => Math.abs(c * (p.y - at.y) - s * (p.x - at.x))));
  return { at, dx: way * c, dy: way * s, off };
};

const meeting = (a: Axis, b: Axis): Point | undefined => {
  const area = a.dx * b.dy - a.dy * b.dx;
  if (area === 0) return undefined;
  const t = ((b.at.x - a.at.x) * b.dy - (b.at.y - a.at.y) * b.dx) / area;
  return { x: a.at.x + a.dx * t, y: a.at.y + a.dy * t };
};

/** How far along a line `p` is beyond `start`. */
const alongFrom = (start: Point, { dx, dy }: Axis, p: Point): number => (p.x - start.x) * dx + (p.y - start.y) * dy;

const angleOf = (ux: number, uy: number, vx: number, vy: number): number =>
  Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);

/** Points of a closed polygon at equal steps of about `spacing`. */
const evenly = (points: readonly Point[], spacing: number): Point[] => {
  const lengths = points.map((p, i) => distance(p, points[(i + 1) % points.length]!));
  const total = lengths.reduce((sum, l) => sum + l, 0);
  const count = Math.max(3, Math.round(total / spacing));
  const even: Point[] = [];
  for (let i = 0, k = 0, before = 0; k < count; k += 1) {
    const at = (total * k) / count;
    while (i < points.length - 1 && before + lengths[i]! < at) before += lengths[i++]!;
    const t = lengths[i] === 0 ? 0 : (at - before) / lengths[i]!;
    const [p, q] = [points[i]!, points[(i + 1) % points.length]!];
    even.push({ x: p.x + (q.x - p.x) * t, y: p.y + (q.y - p.y) * t });
  }
  return even;
};

interface Found extends Cut {
  /** Numbers of the even points at its mouth: from the first, forwards, to the last. */
  readonly from: number;
  readonly to: number;
  readonly before: Axis;
  readonly after: Axis;
}

const steps = (length: number): number => Math.round(length / SPACING);

/** The cut with its sharpest turn at point number `tip`, if it is one: with the turns nearest to the tip that make it one. */
const cutAt = (even: readonly Point[], turns: readonly number[], tip: number, mm: number): Found | undefined => {
  const n = even.length;
  const place = (k: number): Point => even[((k % n) + n) % n]!;
  const sign = Math.sign(turns[tip]!);
  const against = (k: number): number => -sign * turns[((k % n) + n) % n]!;
  const cornersFrom = (way: 1 | -1): number[] => {
    const corners: number[] = [];
    for (let k = steps(1.2); k <= steps(MOST_DEPTH * 1.15); k += 1) {
      const at = tip + way * k;
      if (against(at) < MOUTH_TURN) continue;
      let best = at;
      for (let j = at; Math.abs(j - at) <= steps(1.5); j += way) if (against(j) > against(best)) best = j;
      corners.push(best);
      if (corners.length === MOST_CORNERS) break;
      k = Math.abs(best - tip) + steps(TURN_REACH);
    }
    return corners;
  };
  const run = (a: number, b: number): Point[] => Array.from({ length: b - a + 1 }, (_, k) => place(a + k));
  /** The side between the tip and a mouth's end, by its straight part. */
  const sideTo = (end: number): Axis | undefined => {
    const long = Math.abs(end - tip);
    const [low, high] = [Math.min(steps(BESIDE_TIP), long >> 2), long - Math.min(steps(BESIDE_MOUTH), long >> 2)];
    if (high - low < 2) return undefined;
    const side = end < tip ? axisOf(run(tip - high, tip - low)) : axisOf(run(tip + low, tip + high));
    return side.off > STRAIGHT * mm ? undefined : side;
  };
  /** Where the lines meet, if that is by the polygon as it goes round number `end`, else that place itself. */
  const meet = (a: Axis, b: Axis, end: number, reach: number): Point => {
    const p = meeting(a, b);
    return p && run(end - reach, end + reach).some((q) => distance(p, q) <= ROUNDED * mm) ? p : place(end);
  };
  const fit = (from: number, to: number): Found | undefined => {
    const [down, up] = [sideTo(from), sideTo(to)];
    if (!down || !up) return undefined;
    const before = axisOf(run(from - steps(BESIDE_TO), from - steps(BESIDE_FROM)));
    const after = axisOf(run(to + steps(BESIDE_FROM), to + steps(BESIDE_TO)));
    const point = meet(down, up, tip, 0);
    const mouth = [meet(before, down, from, steps(BARB)), meet(after, up, to, steps(BARB))] as const;
    const [mx, my] = [mouth[1].x - mouth[0].x, mouth[1].y - mouth[0].y];
    const wide = Math.hypot(mx, my);
    const depth = (mx * (point.y - mouth[0].y) - my * (point.x - mouth[0].x)) / wide;
    const sides = [distance(mouth[0], point), distance(mouth[1], point)];
    const fits =
      wide > SPACING * mm &&
      wide <= WIDEST_MOUTH * mm &&
      Math.abs(depth) >= LEAST_DEPTH * mm &&
      Math.abs(depth) <= MOST_DEPTH * mm &&
      Math.sign(depth) === -sign &&
      Math.max(...sides) <= UNEVEN * Math.min(...sides) &&
      [before, after].every((e) => Math.abs(angleOf(e.dx, e.dy, mx, my)) <= EDGE_OFF && e.off <= STRAIGHT * mm);
    if (!fits) return undefined;
    // What of the edge lies over the mouth, as a barb does, goes with the cut.
    let [first, last] = [from, to];
    while (from - first < steps(BARB) && alongFrom(mouth[0], before, place(first - 1)) > 0) first -= 1;
    while (last - to < steps(BARB) && alongFrom(mouth[1], after, place(last + 1)) < 0) last += 1;
    return { mouth, tip: point, from: first, to: last, before, after };
  };
  const [starts, ends] = [cornersFrom(-1), cornersFrom(1)];
  for (const from of starts) {
    for (const to of ends) {
      const found = fit(from, to);
      if (found) return found;
    }
  }
  return undefined;
};

/** The edge over a mouth: a cubic that leaves and arrives as the edge runs before and after, in steps of half a millimetre. */
const over = ({ mouth: [a, b], before, after }: Found, mm: number): Point[] => {
  const third = distance(a, b) / 3;
  const [p, q] = [
    { x: a.x + before.dx * third, y: a.y + before.dy * third },
    { x: b.x - after.dx * third, y: b.y - after.dy * third },
  ];
  const count = Math.max(2, Math.ceil(distance(a, b) / (0.5 * mm)));
  return Array.from({ length: count + 1 }, (_, k) => {
    const t = k / count;
    const u = 1 - t;
    const [c0, c1, c2, c3] = [u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t];
    return { x: c0 * a.x + c1 * p.x + c2 * q.x + c3 * b.x, y: c0 * a.y + c1 * p.y + c2 * q.y + c3 * b.y };
  });
};

/**
 * A piece's rough outline without its V cuts (2 to 12 mm deep, at most 8 mm wide, and 2.2 mm and more from corners and from each other)
 * and triangles left standing, its edge led over their mouths; and these cuts, in the outline's order. The same outline if it has none.
 */
export const bridgeCuts = (
  rough: RoughOutline,
  pxPerMm: number,
): { readonly outline: RoughOutline; readonly cuts: readonly Cut[] } => {
  const even = evenly(rough.points, SPACING * pxPerMm);
  const n = even.length;
  const reach = Math.round(TURN_REACH / SPACING);
  if (n < 8 * reach) return { outline: rough, cuts: [] };
  const turns = even.map((p, k) => {
    const [a, b] = [even[(k - reach + n) % n]!, even[(k + reach) % n]!];
    return angleOf(p.x - a.x, p.y - a.y, b.x - p.x, b.y - p.y);
  });
  const isSharpest = (k: number): boolean => {
    if (Math.abs(turns[k]!) < TIP_TURN) return false;
    for (let j = -reach; j <= reach; j += 1) {
      const other = Math.abs(turns[(k + j + n) % n]!);
      if (other > Math.abs(turns[k]!) || (other === Math.abs(turns[k]!) && j < 0)) return false;
    }
    return true;
  };
  const found: Found[] = [];
  for (let k = 0; k < n; k += 1) {
    if (!isSharpest(k)) continue;
    const cut = cutAt(even, turns, k, pxPerMm);
    if (cut && found.every((f) => cut.from >= f.to || cut.to <= f.from)) found.push(cut);
  }
  if (found.length === 0) return { outline: rough, cuts: [] };
  const gone = new Uint8Array(n);
  for (const { from, to } of found) for (let k = from; k <= to; k += 1) gone[((k % n) + n) % n] = 1;
  const starts = new Map(found.map((f) => [((f.from % n) + n) % n, f]));
  const points: Point[] = [];
  for (let k = 0; k < n; k += 1) {
    const cut = starts.get(k);
    if (cut) points.push(...over(cut, pxPerMm));
    else if (gone[k] === 0) points.push(even[k]!);
  }
  return { outline: { ...rough, points }, cuts: found.map(({ mouth, tip }) => ({ mouth, tip })) };
};
