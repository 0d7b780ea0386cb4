/**
 * What lies outside all scans of a sheet: the paper or the ground goes on there as it is along the outer borders of the scans, so that
 * nothing looks like an edge.
 */
import { inverse } from '../../geometry/matrix.ts';
import type { Point } from '../../geometry/point.ts';
import { transformPoint } from '../../geometry/transform-path.ts';
import { LIGHT } from '../picture.ts';
import { medianOf } from '../quantile-of.ts';
import { finenessOf, type PlacedScan } from './scan-to-join.ts';

/** Distance of the samples along a border, and how far inside it and how wide they are taken; millimetres. */
const APART = 2;
const WIDE = 2;

/** Samples whose light differs more than this share from that of most are ink or a piece of paper, not the ground. */
const OTHER = 0.25;

/** Distance of the places at which the light outside is worked out, in millimetres. */
const KNOT = 4;

interface Sample extends Point {
  readonly light: number;
}

const middleLight = ({ picture, toSheet }: PlacedScan, x: number, y: number): number => {
  const half = Math.max(1, Math.round((WIDE * finenessOf(toSheet)) / 2));
  const skip = Math.max(1, Math.floor(half / 4));
  const lights: number[] = [];
  for (let v = -half; v <= half; v += skip) {
    const row = Math.max(0, Math.min(picture.height - 1, Math.floor(y + v))) * picture.width;
    for (let u = -half; u <= half; u += skip) {
      lights.push(LIGHT[picture.grey[row + Math.max(0, Math.min(picture.width - 1, Math.floor(x + u)))]!]!);
    }
  }
  return medianOf(lights);
};

/** Samples along the borders of a scan, in sheet millimetres, where no other scan shows what lies beyond. */
const samplesOf = (scan: PlacedScan, others: readonly PlacedScan[]): Sample[] => {
  const { left, top, right, bottom } = scan.part;
  const apart = APART * finenessOf(scan.toSheet);
  const inside = Math.min(apart * 0.75, (right - left) / 2, (bottom - top) / 2);
  const places: Point[] = [];
  for (let x = left; x <= right; x += apart) places.push({ x, y: top + inside }, { x, y: bottom - inside });
  for (let y = top; y <= bottom; y += apart) places.push({ x: left + inside, y }, { x: right - inside, y });
  return places.flatMap((place): Sample[] => {
    const at = transformPoint(place, scan.toSheet);
    const covered = others.some(({ part, toSheet }) => {
      const there = transformPoint(at, inverse(toSheet));
      return there.x > part.left && there.x < part.right && there.y > part.top && there.y < part.bottom;
    });
    return covered ? [] : [{ ...at, light: middleLight(scan, place.x, place.y) }];
  });
};

/** The light at places outside all scans: as on the borders near by. In millimetres on the sheet. */
export const surroundings = (scans: readonly PlacedScan[]): ((x: number, y: number) => number) => {
  const samples = scans.flatMap((scan) =>
    samplesOf(
      scan,
      scans.filter((other) => other !== scan),
    ),
  );
  const lights = samples.map(({ light }) => light).toSorted((a, b) => a - b);
  const most = lights[lights.length >> 1] ?? 1;
  const brightest = lights.at(-1) ?? 1;
  const ground = samples.filter(({ light }) => Math.abs(light - most) <= OTHER * brightest);
  // Near samples count most, far ones hardly, and the sum is smooth: between knots in proportion is as good.
  const knots = new Map<string, number>();
  const knot = (i: number, j: number): number => {
    const key = `${i} ${j}`;
    const known = knots.get(key);
    if (known !== undefined) return known;
    let sum = 0;
    let weights = 0;
    for (const { x, y, light } of ground) {
      const far = (i * KNOT - x) ** 2 + (j * KNOT - y) ** 2 + KNOT * KNOT;
      sum += light / (far * far);
      weights += 1 / (far * far);
    }
    const value = weights > 0 ? sum / weights : most;
    knots.set(key, value);
    return value;
  };
  return (x, y) => {
    const i = Math.floor(x / KNOT);
    const j = Math.floor(y / KNOT);
    const s = x / KNOT - i;
    const t = y / KNOT - j;
    return (
      (knot(i, j) * (1 - s) + knot(i + 1, j) * s) * (1 - t) + (knot(i, j + 1) * (1 - s) + knot(i + 1, j + 1) * s) * t
    );
  };
};
