import { derivativeOn, pointOn } from '../../../src/geometry/evaluate.ts';
import { flattenPath } from '../../../src/geometry/flatten.ts';
import type { Path } from '../../../src/geometry/path.ts';
import { between, distance, type Point } from '../../../src/geometry/point.ts';
import { magnitude } from '../../../src/geometry/vector.ts';

/** The nearest place on an outline: its coordinates, the way away from it, and the unit direction of the outline there. */
export interface Foot {
  readonly distance: number;
  readonly x: number;
  readonly y: number;
  readonly dx: number;
  readonly dy: number;
}

const FLATNESS = 2e-5;
const LONGEST = 1;
const CELL = 1.5;

/** Finds the nearest place on a path, 2e-5 mm off at most, fast: its chords are sorted into the cells of a grid. */
export const nearestOn = (path: Path): ((x: number, y: number) => Foot) => {
  const points: Point[] = [];
  for (const p of flattenPath(path, FLATNESS)) {
    const last = points.at(-1);
    const parts = last ? Math.ceil(distance(last, p) / LONGEST) : 1;
    for (let i = 1; i < parts; i += 1) points.push(between(last!, p, i / parts));
    points.push(p);
  }
  const px = Float64Array.from(points, (p) => p.x);
  const py = Float64Array.from(points, (p) => p.y);
  const left = Math.floor(px.reduce((a, b) => Math.min(a, b)) / CELL);
  const top = Math.floor(py.reduce((a, b) => Math.min(a, b)) / CELL);
  const columns = Math.floor(px.reduce((a, b) => Math.max(a, b)) / CELL) - left + 1;
  const rows = Math.floor(py.reduce((a, b) => Math.max(a, b)) / CELL) - top + 1;
  const cells = Array.from({ length: columns * rows }, (): number[] => []);
  for (let k = 1; k < px.length; k += 1) {
    const i = Math.floor((px[k - 1]! + px[k]!) / 2 / CELL) - left;
    const j = Math.floor((py[k - 1]! + py[k]!) / 2 / CELL) - top;
    cells[j * columns + i]!.push(k);
  }
  return (x, y) => {
    const ci = Math.floor(x / CELL) - left;
    const cj = Math.floor(y / CELL) - top;
    let square = Infinity;
    let best = 1;
    let share = 0;
    const look = (i: number, j: number): void => {
      if (i < 0 || j < 0 || i >= columns || j >= rows) return;
      for (const k of cells[j * columns + i]!) {
        const ux = px[k]! - px[k - 1]!;
        const uy = py[k]! - py[k - 1]!;
        const vx = x - px[k - 1]!;
        const vy = y - py[k - 1]!;
        const length = ux * ux + uy * uy;
        const along = length > 0 ? (vx * ux + vy * uy) / length : 0;
        const t = along < 0 ? 0 : along > 1 ? 1 : along;
        const off = (vx - t * ux) ** 2 + (vy - t * uy) ** 2;
        if (off < square) [square, best, share] = [off, k, t];
      }
    };
    const last = Math.abs(ci) + Math.abs(cj) + columns + rows;
    for (let ring = 0; ring <= last; ring += 1) {
      // A chord lies at most half its length outside the cell of its middle.
      if (Math.sqrt(square) < (ring - 1) * CELL - LONGEST / 2) break;
      for (let i = ci - ring; i <= ci + ring; i += 1) {
        const step = ring > 0 && i > ci - ring && i < ci + ring ? 2 * ring : 1;
        for (let j = cj - ring; j <= cj + ring; j += step) look(i, j);
      }
    }
    const ux = px[best]! - px[best - 1]!;
    const uy = py[best]! - py[best - 1]!;
    const length = Math.hypot(ux, uy);
    return {
      distance: Math.sqrt(square),
      x: px[best - 1]! + share * ux,
      y: py[best - 1]! + share * uy,
      dx: ux / length,
      dy: uy / length,
    };
  };
};

/** Places on a path about `step` apart along it, its nodes among them. */
export const samplesOf = (path: Path, step: number): Point[] =>
  path.segments.flatMap((s) => {
    // Even steps of the parameter bunch where a cubic is slow, so the parts are cut by length.
    const rough = Array.from({ length: 64 }, (_, i) => magnitude(derivativeOn(s, (i + 0.5) / 64)) / 64);
    const length = rough.reduce((a, b) => a + b, 0);
    const count = Math.max(1, Math.ceil(length / step));
    const found: Point[] = [s.start];
    let run = 0;
    let k = 1;
    for (const [i, part] of rough.entries()) {
      for (; k < count && (k * length) / count <= run + part; k += 1) {
        found.push(pointOn(s, (i + ((k * length) / count - run) / part) / 64));
      }
      run += part;
    }
    return found;
  });
