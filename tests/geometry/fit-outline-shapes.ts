/** Known outlines, noisy readings taken from them, and how far a fitted outline is from the truth. */
import { pointOn, tangentOn } from '../../src/geometry/evaluate.ts';
import { fitOutline, type FittedOutline, type Reading } from '../../src/geometry/fit-outline.ts';
import { nearestPoint } from '../../src/geometry/nearest-point.ts';
import type { Path } from '../../src/geometry/path.ts';
import { distance, point, type Point } from '../../src/geometry/point.ts';
import { cubic, line, type Segment } from '../../src/geometry/segment.ts';
import { turn } from '../../src/geometry/vector.ts';

/** Numbers in [0, 1), the same for the same seed. */
const chance = (seed: number): (() => number) => {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let z = state;
    z = Math.imul(z ^ (z >>> 15), z | 1);
    z ^= z + Math.imul(z ^ (z >>> 7), z | 61);
    return ((z ^ (z >>> 14)) >>> 0) / 2 ** 32;
  };
};

const normal = (random: () => number): number =>
  Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

/** Segments from steps: two numbers a line, six a cubic; closed where it began. */
const outline = (start: readonly [number, number], ...steps: readonly (readonly number[])[]): Path => {
  const first = point(...start);
  let from: Point = first;
  const segments = steps.map((n, i): Segment => {
    const to = i === steps.length - 1 ? first : point(n.at(-2)!, n.at(-1)!);
    const made = n.length <= 2 ? line(from, to) : cubic(from, point(n[0]!, n[1]!), point(n[2]!, n[3]!), to);
    from = to;
    return made;
  });
  return { segments };
};

const KAPPA = (4 / 3) * Math.tan(Math.PI / 32);

/** A circle or an ellipse of sixteen cubics, true to a millionth of its radius. */
const ellipse = (a: number, b: number, x = 0, y = 0): Path => {
  const at = (i: number, h: number): Point => {
    const t = (i * Math.PI) / 8;
    return point(x + a * (Math.cos(t) - h * Math.sin(t)), y + b * (Math.sin(t) + h * Math.cos(t)));
  };
  const places = Array.from({ length: 16 }, (_, i) => at(i, 0));
  return {
    segments: places.map((p, i) => cubic(p, at(i, KAPPA), at(i + 1, -KAPPA), places[(i + 1) % 16]!)),
  };
};

/** Corners of the truth: joints that turn by more than 8 degrees. */
const cornersOf = ({ segments }: Path): Point[] =>
  segments.flatMap((s, i) => {
    const before = segments[(i + segments.length - 1) % segments.length]!;
    return Math.abs(turn(tangentOn(before, 1), tangentOn(s, 0))) > 0.14 ? [s.start] : [];
  });

export const SHAPES: Readonly<Record<string, Path>> = {
  rectangle: outline([10, 10], [130, 14], [122, 254], [2, 250], []),
  panel: outline(
    [10, 10],
    [50, 20, 90, 0, 120, 2],
    [122, 70, 95, 120, 88, 180],
    [83, 223, 105, 280, 110, 340],
    [80, 346, 40, 340, 15, 330],
    [18, 280, 43, 225, 43, 175],
    [43, 120, 5, 70, 10, 10],
  ),
  bust: outline(
    [10, 0],
    [85, 0],
    [85, 30, 92, 30, 105, 40],
    [118, 50, 127, 62, 127, 77],
    [127, 99.1, 109.1, 117, 92, 124],
    [75, 131, 65, 150, 65, 180],
    [65, 220, 88, 260, 92, 320],
    [0, 320],
    [4, 260, 20, 220, 20, 180],
    [20, 120, 10, 60, 10, 0],
  ),
  gusset: outline([60, 0], [74, 38, 84, 90, 100, 110], [70, 122, 50, 122, 20, 110], [36, 90, 46, 38, 60, 0]),
  obtuse: outline(
    [0, 0],
    [40, 0],
    [80, -10.7],
    [110, -8, 130, 10, 140, 30],
    [152, 54, 150, 90, 140, 130],
    [130, 170, 128, 190, 126, 210],
    [70, 220],
    [0, 210],
    [-10, 150, 8, 60, 0, 0],
  ),
  nearCorners: outline(
    [0, 0],
    [60, 2],
    [64, 3.5],
    [66, 60, 70, 90, 60, 150],
    [56, 151.5],
    [30, 150.5, 10, 154, 0, 150],
    [-6, 100, 12, 60, 0, 0],
  ),
  sCurve: outline(
    [0, 0],
    [30, -30, 60, 30, 100, 0],
    [110, 40, 60, 60, 80, 100],
    [95, 130, 120, 140, 100, 190],
    [60, 180, 40, 200, 0, 190],
    [-30, 150, 30, 120, 10, 80],
    [-5, 50, 10, 30, 0, 0],
  ),
  circle6: ellipse(6, 6),
  circle20: ellipse(20, 20),
  circle100: ellipse(100, 100),
  ellipse: ellipse(80, 25),
};

export interface Spoil {
  readonly pxPerMm?: number;
  readonly noise?: number;
  /** Autoregressive noise over 8 pixels. */
  readonly correlated?: number;
  readonly rounded?: boolean;
  /** Share of readings that are off by up to 6 pixels. */
  readonly outliers?: number;
  /** Stretches of 1 to 5 mm without a reading. */
  readonly gaps?: number;
  /** Readings within so many mm of a corner are worn inwards. */
  readonly worn?: number;
  readonly seed?: number;
  /** Where along the ring it starts, as a share. */
  readonly begin?: number;
}

/** Readings about every pixel round the truth, y down, in pixels. */
export const readingsOf = (truth: Path, spoil: Spoil): Reading[] => {
  const { pxPerMm = 11.8, noise = 0, correlated = 0, rounded = false, outliers = 0, gaps = 0, worn = 0 } = spoil;
  const { seed = 1, begin = 0 } = spoil;
  const random = chance(seed);
  const places: { at: Point; dx: number; dy: number }[] = [];
  let owed = 0;
  for (const s of truth.segments) {
    const fine = Math.ceil(3 * pxPerMm * distance(s.start, s.end)) + 100;
    let last = s.start;
    for (let i = 1; i <= fine; i += 1) {
      const p = pointOn(s, i / fine);
      owed += distance(last, p) * pxPerMm;
      last = p;
      if (owed < 1) continue;
      owed -= 1;
      const d = tangentOn(s, i / fine);
      places.push({ at: p, dx: d.dx, dy: d.dy });
    }
  }
  const corners = cornersOf(truth);
  const n = places.length;
  const holes = Array.from({ length: gaps }, () => ({
    at: Math.floor(random() * n),
    half: (0.5 + 2 * random()) * pxPerMm,
  }));
  const rho = Math.exp(-1 / 8);
  let wander = 0;
  const readings = places.map(({ at, dx, dy }, i): Reading => {
    wander = rho * wander + Math.sqrt(1 - rho * rho) * normal(random);
    let off = noise * normal(random) + correlated * wander;
    if (random() < outliers) off += (random() - 0.5) * 12;
    const near = corners.length === 0 ? Infinity : Math.min(...corners.map((c) => distance(c, at)));
    if (near < worn) off -= 2 * (1 - near / worn) ** 2;
    let [x, y] = [at.x * pxPerMm - off * -dy, at.y * pxPerMm - off * dx];
    if (rounded) {
      if (Math.abs(dx) > Math.abs(dy)) y = Math.round(y);
      else x = Math.round(x);
    }
    const hole = holes.some((h) => Math.min(Math.abs(h.at - i), n - Math.abs(h.at - i)) < h.half);
    return { at: point(x, y), weight: hole ? 0 : 1 };
  });
  const first = Math.floor(begin * n);
  return [...readings.slice(first), ...readings.slice(0, first)];
};

export interface Score {
  /** Millimetres, both ways between truth and fit. */
  readonly rms: number;
  readonly max: number;
  /** The worst corner of the truth, to the nearest found; Infinity with none. */
  readonly corner: number;
  readonly found: number;
  readonly wanted: number;
  readonly segments: number;
  readonly fitted: FittedOutline;
  readonly ms: number;
}

const sampled = (path: Path, each: number): Point[] =>
  path.segments.flatMap((s) => Array.from({ length: each }, (_, i) => pointOn(s, i / each)));

export const score = (truth: Path, spoil: Spoil, blunt = 0.6): Score => {
  const { pxPerMm = 11.8 } = spoil;
  const readings = readingsOf(truth, spoil);
  const started = performance.now();
  const fitted = fitOutline(readings, { pxPerMm, blunt: blunt * pxPerMm });
  const ms = performance.now() - started;
  const small = (p: Point): Point => point(p.x / pxPerMm, p.y / pxPerMm);
  const path: Path = {
    segments: fitted.path.segments.map((s) =>
      s.kind === 'line'
        ? line(small(s.start), small(s.end))
        : cubic(small(s.start), small(s.startHandle), small(s.endHandle), small(s.end)),
    ),
  };
  const off = [
    ...sampled(truth, Math.ceil(160 / truth.segments.length)).map((p) => nearestPoint(path, p).distance),
    ...sampled(path, Math.ceil(160 / path.segments.length)).map((p) => nearestPoint(truth, p).distance),
  ];
  const corners = fitted.corners.map(small);
  const wanted = cornersOf(truth);
  return {
    rms: Math.sqrt(off.reduce((s, d) => s + d * d, 0) / off.length),
    max: Math.max(...off),
    corner: Math.max(0, ...wanted.map((c) => Math.min(Infinity, ...corners.map((f) => distance(f, c))))),
    found: corners.length,
    wanted: wanted.length,
    segments: path.segments.length,
    fitted,
    ms,
  };
};
