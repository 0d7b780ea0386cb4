import { inverse, type Matrix } from '../../geometry/matrix.ts';
import type { Point } from '../../geometry/point.ts';
import { LIGHT, type Picture } from '../picture.ts';
import { sampleLight, type LightSample } from './sample-light.ts';

/** How far, along one direction, a scan's ink lies from the same ink in another: a line tells of the way across it only. */
export interface Reading {
  /** The middle of the patch, on the sheet. */
  readonly at: Point;
  /** Along which way, a unit vector. */
  readonly nx: number;
  readonly ny: number;
  /** How far the later scan must be moved along it, in millimetres, and how sure that is (one deviation of the pixels' noise). */
  readonly offset: number;
  readonly noise: number;
  /** The strongest way of its patch, not the second. */
  readonly first: boolean;
}

/** What a patch shows in two scans. */
export interface Comparison {
  /** The spread of the light in the one or the other, whichever is more: bare paper has hardly any. */
  readonly contrast: number;
  /** The correlation of the light of both. */
  readonly alike: number;
  readonly readings: readonly Reading[];
}

/** A patch tells of its second direction too when the light changes along it at least this much of that along the first. */
const SECOND = 0.15;

/** Samples a patch has across: enough for the narrowest pixels that matter, whatever the resolution. */
const ACROSS = 32;

/**
 * Compares one patch, `size` pixels of `later` wide about `middle`, with `earlier`: least squares on the light, in which the one patch
 * may be lighter than the other by a factor and a constant (Lucas and Kanade, 1981, with the light left free).
 * @param over From places in `later` to places in `earlier`.
 * @param toSheet From places in `earlier` to millimetres.
 */
export const comparePatch = (
  later: Picture,
  earlier: Picture,
  over: Matrix,
  toSheet: Matrix,
  middle: Point,
  size: number,
): Comparison => {
  const skip = Math.max(1, Math.floor(size / ACROSS));
  const half = Math.floor(size / 2 / skip) * skip;
  const startX = Math.floor(middle.x) - half;
  const startY = Math.floor(middle.y) - half;
  const sample: LightSample = { light: 0, dx: 0, dy: 0 };
  let [n, a, b, u, v, aa, ab, bb, au, av, bu, bv, uu, uv, vv] = Array.from({ length: 15 }, () => 0) as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  for (let j = 0; j <= 2 * half; j += skip) {
    const y = startY + j;
    for (let i = 0; i <= 2 * half; i += skip) {
      const x = startX + i;
      sampleLight(
        earlier,
        over.a * (x + 0.5) + over.c * (y + 0.5) + over.e,
        over.b * (x + 0.5) + over.d * (y + 0.5) + over.f,
        sample,
      );
      const light = LIGHT[later.grey[y * later.width + x]!]!;
      const { light: other, dx, dy } = sample;
      n++;
      a += light;
      b += other;
      u += dx;
      v += dy;
      aa += light * light;
      ab += light * other;
      bb += other * other;
      au += light * dx;
      av += light * dy;
      bu += other * dx;
      bv += other * dy;
      uu += dx * dx;
      uv += dx * dy;
      vv += dy * dy;
    }
  }
  const varB = bb - (b * b) / n;
  const varA = aa - (a * a) / n;
  const covariance = ab - (a * b) / n;
  const contrast = Math.sqrt(Math.max(0, varA, varB) / n);
  if (!(varB > 0) || !(varA > 0) || covariance <= 0) return { contrast, alike: 0, readings: [] };
  const gain = covariance / varB;
  const alike = covariance / Math.sqrt(varA * varB);
  // Slopes and differences with all that a factor and a constant explain taken out.
  const bU = bu - (b * u) / n;
  const bV = bv - (b * v) / n;
  const hUU = gain * gain * (uu - (u * u) / n - (bU * bU) / varB);
  const hUV = gain * gain * (uv - (u * v) / n - (bU * bV) / varB);
  const hVV = gain * gain * (vv - (v * v) / n - (bV * bV) / varB);
  const rU = gain * (au - (a * u) / n - gain * bU);
  const rV = gain * (av - (a * v) / n - gain * bV);
  // The same along x and y of the sheet, by the inverse of the earlier scan's map.
  const { a: ux, c: uy, b: vx, d: vy } = inverse(toSheet);
  const hXX = ux * ux * hUU + 2 * ux * vx * hUV + vx * vx * hVV;
  const hXY = ux * uy * hUU + (ux * vy + vx * uy) * hUV + vx * vy * hVV;
  const hYY = uy * uy * hUU + 2 * uy * vy * hUV + vy * vy * hVV;
  const rX = ux * rU + vx * rV;
  const rY = uy * rU + vy * rV;
  const spread = Math.hypot((hXX - hYY) / 2, hXY);
  const mean = (hXX + hYY) / 2;
  const angle = Math.atan2(2 * hXY, hXX - hYY) / 2;
  const unlike = Math.max(0, varA - (covariance * covariance) / varB) / n;
  const px = middle.x;
  const py = middle.y;
  const ex = over.a * px + over.c * py + over.e;
  const ey = over.b * px + over.d * py + over.f;
  const at = { x: toSheet.a * ex + toSheet.c * ey + toSheet.e, y: toSheet.b * ex + toSheet.d * ey + toSheet.f };
  const readings = [mean + spread, mean - spread].flatMap((strength, k): Reading[] => {
    if (!(strength > 0) || (k === 1 && strength < SECOND * (mean + spread))) return [];
    const nx = Math.cos(angle + (k * Math.PI) / 2);
    const ny = Math.sin(angle + (k * Math.PI) / 2);
    return [
      { at, nx, ny, offset: (nx * rX + ny * rY) / strength, noise: Math.sqrt(unlike / strength), first: k === 0 },
    ];
  });
  return { contrast, alike, readings };
};
