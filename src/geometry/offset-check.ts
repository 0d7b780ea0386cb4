import type { Cubic } from './segment.ts';
import { footNear, type Source } from './offset-source.ts';

const FEWEST_SAMPLES = 7;
const MOST_SAMPLES = 41;
const SAMPLES_PER_MM = 0.25;

/**
 * The greatest distance between a fitted cubic and the true parallel of `source` between `from` and `to`, found afresh:
 * each sample looks up its own nearest point on the source and knows nothing of the fit. Infinite where a sample has
 * no nearest point or the nearest points do not run forward from `from` to `to`, so that the curve as a whole is checked both ways.
 */
export const offsetDeviation = (source: Source, fitted: Cubic, from: number, to: number): number => {
  const { start, startHandle, endHandle, end } = fitted;
  const reach = Math.abs(end.x - start.x) + Math.abs(end.y - start.y);
  const samples = Math.min(MOST_SAMPLES, Math.max(FEWEST_SAMPLES, Math.ceil(reach * SAMPLES_PER_MM)));
  const span = to - from;
  let previous = from - span / 4;
  let worst = 0;
  for (let i = 0; i < samples; i += 1) {
    const u = (i + 0.5) / samples;
    const v = 1 - u;
    const b0 = v * v * v;
    const b1 = 3 * v * v * u;
    const b2 = 3 * v * u * u;
    const b3 = u * u * u;
    const x = b0 * start.x + b1 * startHandle.x + b2 * endHandle.x + b3 * end.x;
    const y = b0 * start.y + b1 * startHandle.y + b2 * endHandle.y + b3 * end.y;
    const foot = footNear(source, x, y, from + u * span);
    if (!(foot > previous) || foot > to + span / 4) return Number.POSITIVE_INFINITY;
    previous = foot;
    const px = x - (((source.x3 * foot + source.x2) * foot + source.x1) * foot + source.x0);
    const py = y - (((source.y3 * foot + source.y2) * foot + source.y1) * foot + source.y0);
    const dx = (3 * source.x3 * foot + 2 * source.x2) * foot + source.x1;
    const dy = (3 * source.y3 * foot + 2 * source.y2) * foot + source.y1;
    const away = (px * dy - py * dx) / Math.sqrt(dx * dx + dy * dy);
    const miss = Math.abs(away - source.distance);
    if (!(miss <= worst)) worst = miss;
  }
  return worst;
};
