import { compose, IDENTITY, rotation, translation, type Matrix } from '../../../src/geometry/matrix.ts';
import type { Point } from '../../../src/geometry/point.ts';
import { transformPoint } from '../../../src/geometry/transform-path.ts';
import type { Foot } from './dense-outline.ts';

const mean = (all: readonly Point[]): Point => ({
  x: all.reduce((sum, p) => sum + p.x, 0) / all.length,
  y: all.reduce((sum, p) => sum + p.y, 0) / all.length,
});

/** The turn and shift that bring points nearest to their partners, by least squares. */
const ontoPartners = (points: readonly Point[], partners: readonly Point[]): Matrix => {
  const [a, b] = [mean(points), mean(partners)];
  let [along, across] = [0, 0];
  for (const [i, p] of points.entries()) {
    const [px, py] = [p.x - a.x, p.y - a.y];
    const [qx, qy] = [partners[i]!.x - b.x, partners[i]!.y - b.y];
    along += px * qx + py * qy;
    across += px * qy - py * qx;
  }
  return compose(translation(b.x, b.y), compose(rotation(Math.atan2(across, along)), translation(-a.x, -a.y)));
};

const det = (a: readonly number[], b: readonly number[], c: readonly number[]): number =>
  a[0]! * (b[1]! * c[2]! - b[2]! * c[1]!) -
  a[1]! * (b[0]! * c[2]! - b[2]! * c[0]!) +
  a[2]! * (b[0]! * c[1]! - b[1]! * c[0]!);

/** One step of least squares on the distances square to the outline; undefined where they leave the motion open (a circle). */
const ontoLines = (points: readonly Point[], feet: readonly Foot[]): Matrix | undefined => {
  const middle = points.reduce((m, p) => ({ x: m.x + p.x / points.length, y: m.y + p.y / points.length }), {
    x: 0,
    y: 0,
  });
  // Unknowns: shift (x, y) and turn about the middle; one equation a point.
  const m = [
    [0, 0, 0],
    [0, 0, 0],
    [0, 0, 0],
  ];
  const right = [0, 0, 0];
  for (const [i, p] of points.entries()) {
    const foot = feet[i]!;
    const [nx, ny] = [foot.dy, -foot.dx];
    const row = [nx, ny, ny * (p.x - middle.x) - nx * (p.y - middle.y)];
    const off = nx * (foot.x - p.x) + ny * (foot.y - p.y);
    for (let r = 0; r < 3; r += 1) {
      right[r]! += row[r]! * off;
      for (let c = 0; c < 3; c += 1) m[r]![c]! += row[r]! * row[c]!;
    }
  }
  const whole = det(m[0]!, m[1]!, m[2]!);
  if (!(whole > 0)) return undefined;
  // The sums are symmetric, so rows stand for columns in Cramer's rule.
  const dx = det(right, m[1]!, m[2]!) / whole;
  const dy = det(m[0]!, right, m[2]!) / whole;
  const angle = det(m[0]!, m[1]!, right) / whole;
  return compose(
    translation(middle.x + dx, middle.y + dy),
    compose(rotation(angle), translation(-middle.x, -middle.y)),
  );
};

/**
 * The rigid motion (a turn and a shift, no scale) after which points lie nearest to an outline, in the sense of least squares;
 * `start` should be within a few millimetres and degrees.
 */
export const alignRigidly = (
  points: readonly Point[],
  nearest: (x: number, y: number) => Foot,
  start: Matrix = IDENTITY,
): Matrix => {
  let motion = start;
  for (let round = 0; round < 30; round += 1) {
    const moved = points.map((p) => transformPoint(p, motion));
    const feet = moved.map((p) => nearest(p.x, p.y));
    const worst = feet.reduce((most, f) => Math.max(most, f.distance), 0);
    const step = (worst < 1 ? ontoLines(moved, feet) : undefined) ?? ontoPartners(moved, feet);
    motion = compose(step, motion);
    const change = Math.max(
      ...moved.slice(0, 50).map((p) => {
        const q = transformPoint(p, step);
        return Math.hypot(q.x - p.x, q.y - p.y);
      }),
    );
    if (change < 1e-7) break;
  }
  return motion;
};
