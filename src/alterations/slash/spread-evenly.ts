/**
 * The line of an edge under many slashes: where pieces and bridges would follow each other too closely to make a fair line, the opening is
 * shared out along the edge. From the middle of each piece to the middle of the next the motion goes over from one part's to the other's,
 * mixed out of three neighbours' by the weights of a quadratic B-spline, so that the line nowhere gets a corner; the ends of the edge
 * move with the outermost parts, its own corners stay corners.
 */

import { lengthBetween, segmentLength } from '../../geometry/arc-length.ts';
import { derivativeOn, pointOn, tangentOn } from '../../geometry/evaluate.ts';
import { fitCubics } from '../../geometry/fit-cubics.ts';
import type { Matrix } from '../../geometry/matrix.ts';
import { monotoneBlend, type Blend } from '../../geometry/monotone-blend.ts';
import type { Path } from '../../geometry/path.ts';
import { movePoint, type Point } from '../../geometry/point.ts';
import type { Segment } from '../../geometry/segment.ts';
import { REFIT_TOLERANCE } from '../../geometry/tolerance.ts';
import { transformPoint } from '../../geometry/transform-path.ts';
import { dot, magnitude, plus, scaled, vectorTo, type Vector } from '../../geometry/vector.ts';

/** Of its pace along the edge a line keeps at least this part, or it is about to double back. */
const SLOWEST = 1 / 5;

const PACES = 8;

const turnedBy = (v: Vector, m: Matrix): Vector => ({ dx: m.a * v.dx + m.c * v.dy, dy: m.b * v.dx + m.d * v.dy });

interface Spread {
  readonly point: (t: number) => Point;
  readonly derivative: (t: number) => Vector;
}

interface Share {
  readonly motion: Matrix;
  readonly weight: number;
  /** By how much the weight changes from one part to the next. */
  readonly slope: number;
}

/**
 * The motions that hold at a place between the parts, given as the number of a part and a fraction; the weights sum to 1, their slopes
 * to 0. Beyond the outermost parts their steps go on, so that a whole number at either end gives the motion of that part alone.
 */
const sharesAt = (number: number, motions: readonly Matrix[]): readonly Share[] => {
  const last = motions.length - 1;
  const part = Math.min(last, Math.max(0, Math.round(number)));
  const off = number - part;
  const motion = motions[part]!;
  const [before, after] = [(0.5 - off) ** 2 / 2, (0.5 + off) ** 2 / 2];
  const [fading, growing] = [off - 0.5, off + 0.5];
  if (part === 0 || part === last) {
    const inner = motions[part === 0 ? 1 : last - 1]!;
    const inwards = part === 0 ? 1 : -1;
    return [
      { motion, weight: 1 - inwards * off, slope: -inwards },
      { motion: inner, weight: inwards * off, slope: inwards },
    ];
  }
  return [
    { motion: motions[part - 1]!, weight: before, slope: fading },
    { motion, weight: 1 - before - after, slope: -fading - growing },
    { motion: motions[part + 1]!, weight: after, slope: growing },
  ];
};

/** One segment that begins `before` millimetres along the edge; `part` says which motion holds where, in fractions between two. */
const spreadSegment = (s: Segment, before: number, part: Blend, motions: readonly Matrix[]): Spread => ({
  point: (t) => {
    const p = pointOn(s, t);
    const along = before + lengthBetween(s, 0, t);
    return sharesAt(part.value(along), motions).reduce(
      (sum, { motion, weight }) => movePoint(sum, scaled(vectorTo(p, transformPoint(p, motion)), weight)),
      p,
    );
  },
  derivative: (t) => {
    const [p, d] = [pointOn(s, t), derivativeOn(s, t)];
    const along = before + lengthBetween(s, 0, t);
    const pace = part.slope(along) * magnitude(d);
    return sharesAt(part.value(along), motions).reduce(
      (sum, { motion, weight, slope }) =>
        plus(
          sum,
          plus(scaled(turnedBy(d, motion), weight), scaled(vectorTo(p, transformPoint(p, motion)), slope * pace)),
        ),
      { dx: 0, dy: 0 },
    );
  },
});

/**
 * The edge under the motions of its parts, cut at these lengths along it, to REFIT_TOLERANCE; undefined where it would double back.
 */
export const spreadEvenly = (path: Path, cuts: readonly number[], motions: readonly Matrix[]): Path | undefined => {
  const whole = path.segments.reduce((sum, s) => sum + segmentLength(s), 0);
  const ends = [0, ...cuts, whole];
  const knots = motions.map((_, number) => ({ at: (ends[number]! + ends[number + 1]!) / 2, value: number }));
  const part = monotoneBlend(knots, 'flat');
  const segments: Segment[] = [];
  let before = 0;
  for (const s of path.segments) {
    const curve = spreadSegment(s, before, part, motions);
    const doublesBack = Array.from({ length: PACES + 1 }, (_, i) => i / PACES).some(
      (t) => dot(curve.derivative(t), tangentOn(s, t)) < SLOWEST * magnitude(derivativeOn(s, t)),
    );
    if (doublesBack) return undefined;
    const fitted = fitCubics(curve, 0, 1, REFIT_TOLERANCE);
    const begin = segments.at(-1)?.end;
    segments.push(...(begin === undefined ? fitted : [{ ...fitted[0]!, start: begin }, ...fitted.slice(1)]));
    before += segmentLength(s);
  }
  return { segments: [...segments.slice(0, -1), { ...segments.at(-1)!, end: endUnder(path, motions.at(-1)!) }] };
};

/** The end goes exactly with the last part. */
const endUnder = (path: Path, motion: Matrix): Point => transformPoint(path.segments.at(-1)!.end, motion);
