/**
 * The line a distance outside a net panel, as cubics within 0.001 mm of the true parallel.
 */
import { LEVELS } from './net-panels.js';

const HEIGHTS = Object.values(LEVELS);

/** Points of a seam from one height to another, with derivative and the derivative of its parallel, as functions of u in [0, 1]. `out` is +1 where the outside lies towards the back. */
export function seamParallel(seam, from, to, out, distance) {
  const span = to - from;
  return (u) => {
    const h = from + u * span;
    const { x, slope, bend } = seam(h);
    const speed = Math.hypot(1, slope);
    const point = [x + (out * distance) / speed, h - (out * distance * slope) / speed];
    const stretch = 1 - (out * distance * bend) / speed ** 3;
    return { point, derivative: [slope * stretch * span, stretch * span] };
  };
}

/** The parallel of one cubic at a distance to the left as it runs (y up). */
function cubicParallel([p0, p1, p2, p3], distance) {
  return (u) => {
    const v = 1 - u;
    const mix = (a, b, c, d) => v ** 3 * a + 3 * v * v * u * b + 3 * v * u * u * c + u ** 3 * d;
    const first = [0, 1].map(
      (k) => 3 * (v * v * (p1[k] - p0[k]) + 2 * v * u * (p2[k] - p1[k]) + u * u * (p3[k] - p2[k])),
    );
    const second = [0, 1].map((k) => 6 * (v * (p2[k] - 2 * p1[k] + p0[k]) + u * (p3[k] - 2 * p2[k] + p1[k])));
    const speed = Math.hypot(...first);
    const bend = (first[0] * second[1] - first[1] * second[0]) / speed ** 3;
    const point = [0, 1].map((k) => mix(p0[k], p1[k], p2[k], p3[k]));
    const stretch = 1 - distance * bend;
    return {
      point: [point[0] - (distance * first[1]) / speed, point[1] + (distance * first[0]) / speed],
      derivative: first.map((value) => value * stretch),
    };
  };
}

/** Cubics with the curve's own ends and derivatives, halved until a quarter, the middle and three quarters lie within 0.001 mm. */
function toCubics(curve, from = 0, to = 1, depth = 0) {
  const a = curve(from);
  const b = curve(to);
  const third = (to - from) / 3;
  const cubic = [
    a.point,
    a.point.map((value, k) => value + a.derivative[k] * third),
    b.point.map((value, k) => value - b.derivative[k] * third),
    b.point,
  ];
  const trial = cubicParallel(cubic, 0);
  const error = Math.max(
    ...[0.25, 0.5, 0.75].map((u) => {
      const truth = curve(from + u * (to - from));
      const at = trial(u).point;
      const speed = Math.hypot(...truth.derivative);
      return (
        Math.abs((at[0] - truth.point[0]) * truth.derivative[1] - (at[1] - truth.point[1]) * truth.derivative[0]) /
        speed
      );
    }),
  );
  if (error < 0.001 || depth > 8) return [cubic];
  const middle = (from + to) / 2;
  return [...toCubics(curve, from, middle, depth + 1), ...toCubics(curve, middle, to, depth + 1)];
}

/** A seam in cubics, cut at its spline's knots so that each piece is smooth. */
function seamCubics(seam, from, to, out, distance) {
  const down = to < from;
  const knots = HEIGHTS.filter((h) => h > Math.min(from, to) + 5 && h < Math.max(from, to) - 5);
  const stops = [from, ...(down ? knots.toReversed() : knots), to];
  return stops.slice(1).flatMap((stop, i) => toCubics(seamParallel(seam, stops[i], stop, out, distance)));
}

/** Square to a seam towards the back, turned by a tilt. */
function acrossSeam(seam, h, tilt) {
  const { slope } = seam(h);
  const angle = Math.atan2(-slope, 1) + tilt;
  return [Math.cos(angle), Math.sin(angle)];
}

/** The top or bottom edge as one cubic from the front seam to the back seam. */
function endCubic(panel, end) {
  const a = [panel.front(panel.frontEnds[end]).x, panel.frontEnds[end]];
  const b = [panel.back(panel.backEnds[end]).x, panel.backEnds[end]];
  const reach = Math.hypot(b[0] - a[0], b[1] - a[1]) / 3;
  const leave = acrossSeam(panel.front, a[1], panel.tilt[end][0]);
  const arrive = acrossSeam(panel.back, b[1], panel.tilt[end][1]);
  return [
    a,
    [a[0] + leave[0] * reach, a[1] + leave[1] * reach],
    [b[0] - arrive[0] * reach, b[1] - arrive[1] * reach],
    b,
  ];
}

/** The four edges of a panel at a distance outside the net line: top, back seam down, bottom, front seam up, each a list of cubics. */
export function panelEdges(panel, distance) {
  const bottom = endCubic(panel, 'bottom').toReversed();
  return [
    toCubics(cubicParallel(endCubic(panel, 'top'), distance)),
    seamCubics(panel.back, panel.backEnds.top, panel.backEnds.bottom, 1, distance),
    toCubics(cubicParallel(bottom, distance)),
    seamCubics(panel.front, panel.frontEnds.bottom, panel.frontEnds.top, -1, distance),
  ];
}

/** Where the end tangent of one edge meets the start tangent of the next. */
export function mitre(edge, next) {
  const [, , a, b] = edge[edge.length - 1];
  const [c, d] = next[0];
  const u = [b[0] - a[0], b[1] - a[1]];
  const w = [d[0] - c[0], d[1] - c[1]];
  const t = ((c[0] - b[0]) * w[1] - (c[1] - b[1]) * w[0]) / (u[0] * w[1] - u[1] * w[0]);
  return [b[0] + u[0] * t, b[1] + u[1] * t];
}

/** Where the horizontal at a height meets the cutting line on one side. */
export function cuttingX(seam, h, out, distance) {
  let at = h;
  let x = 0;
  for (let i = 0; i < 60; i++) {
    const { point } = seamParallel(seam, at, at + 1, out, distance)(0);
    x = point[0];
    at += h - point[1];
  }
  return x;
}
