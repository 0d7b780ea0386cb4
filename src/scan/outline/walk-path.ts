/** The stations along a fitted outline, with its own normals; near its corners nothing is measured. */
import { derivativeOn, pointOn } from '../../geometry/evaluate.ts';
import type { Path } from '../../geometry/path.ts';
import { samePoint, type Point } from '../../geometry/point.ts';
import { emptyStations, stationCount, type Stations } from './stations.ts';

/** Steps into which a segment is divided to know its length: a smooth cubic's is then right to a thousandth. */
const STEPS = 32;

/** How near a corner of the outline nothing can be measured, in pixels; `turn` is by how much the outline turns there, in radians. */
export type BluntLength = (turn: number) => number;

/** The corners are starts of segments. */
export const walkPath = (
  path: Path,
  corners: readonly Point[],
  pxPerMm: number,
  bluntLength: BluntLength,
  spacing: number,
): Stations => {
  const { segments } = path;
  // How far along the outline each step of each segment ends.
  const along = new Float64Array(segments.length * STEPS + 1);
  let k = 0;
  for (const s of segments) {
    let before = s.start;
    for (let i = 1; i <= STEPS; i++, k++) {
      const p = pointOn(s, i / STEPS);
      along[k + 1] = along[k]! + Math.hypot(p.x - before.x, p.y - before.y);
      before = p;
    }
  }
  const length = along[k]!;
  const count = stationCount(length, pxPerMm, spacing);
  const stations = emptyStations(count, length / count);

  let step = 0;
  for (let n = 0; n < count; n++) {
    // Half a spacing on, so that none falls on the start, which is a corner more often than not.
    const wanted = (n + 0.5) * stations.spacing;
    while (step < k - 1 && along[step + 1]! < wanted) step++;
    const share = Math.min(1, (wanted - along[step]!) / (along[step + 1]! - along[step]! || 1));
    const s = segments[Math.floor(step / STEPS)]!;
    const t = ((step % STEPS) + share) / STEPS;
    const [p, d] = [pointOn(s, t), derivativeOn(s, t)];
    const size = Math.hypot(d.dx, d.dy) || 1;
    stations.x[n] = p.x;
    stations.y[n] = p.y;
    stations.nx[n] = d.dy / size;
    stations.ny[n] = -d.dx / size;
  }

  for (const [corner, after] of segments.entries()) {
    if (!corners.some((p) => samePoint(p, after.start))) continue;
    const before = segments.at(corner - 1)!;
    const [a, b] = [derivativeOn(before, 1), derivativeOn(after, 0)];
    const turn = Math.abs(Math.atan2(a.dx * b.dy - a.dy * b.dx, a.dx * b.dx + a.dy * b.dy));
    const reach = bluntLength(turn) / stations.spacing;
    const at = along[corner * STEPS]! / stations.spacing - 0.5;
    for (let n = Math.ceil(at - reach); n <= at + reach; n++) stations.blunt[((n % count) + count) % count] = 1;
  }
  return stations;
};
