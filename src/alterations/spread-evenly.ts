/**
 * The line of an edge under many slashes: where pieces and bridges would follow each other too closely to make a fair line, the opening is
 * shared out along the edge. From the middle of each piece to the middle of the next the motion goes over from one part's to the other's;
 * the ends of the edge move with the outermost parts, its corners stay corners.
 */

import { lengthBetween, segmentLength } from '../geometry/arc-length.ts';
import { derivativeOn, pointOn, tangentOn } from '../geometry/evaluate.ts';
import { fitCubics } from '../geometry/fit-cubics.ts';
import type { Matrix } from '../geometry/matrix.ts';
import { monotoneBlend, type Blend } from '../geometry/monotone-blend.ts';
import type { Path } from '../geometry/path.ts';
import { between, type Point } from '../geometry/point.ts';
import type { Segment } from '../geometry/segment.ts';
import { REFIT_TOLERANCE } from '../geometry/tolerance.ts';
import { transformPoint } from '../geometry/transform-path.ts';
import { dot, magnitude, plus, scaled, vectorTo, type Vector } from '../geometry/vector.ts';

/** Of its pace along the edge a line keeps at least this part, or it is about to double back. */
const SLOWEST = 1 / 5;

const PACES = 8;

const turnedBy = (v: Vector, m: Matrix): Vector => ({ dx: m.a * v.dx + m.c * v.dy, dy: m.b * v.dx + m.d * v.dy });

interface Spread {
  readonly point: (t: number) => Point;
  readonly derivative: (t: number) => Vector;
}

/** One segment that begins `before` millimetres along the edge; `part` says which motion holds where, in fractions between two. */
const spreadSegment = (s: Segment, before: number, part: Blend, motions: readonly Matrix[]): Spread => {
  const at = (t: number): { one: Matrix; other: Matrix; share: number; along: number } => {
    const along = before + lengthBetween(s, 0, t);
    const number = Math.min(part.value(along), motions.length - 1);
    const first = Math.min(Math.floor(number), motions.length - 2);
    return { one: motions[first]!, other: motions[first + 1]!, share: number - first, along };
  };
  return {
    point: (t) => {
      const { one, other, share } = at(t);
      const p = pointOn(s, t);
      return between(transformPoint(p, one), transformPoint(p, other), share);
    },
    derivative: (t) => {
      const { one, other, share, along } = at(t);
      const [p, d] = [pointOn(s, t), derivativeOn(s, t)];
      const carried = plus(scaled(turnedBy(d, one), 1 - share), scaled(turnedBy(d, other), share));
      const drift = vectorTo(transformPoint(p, one), transformPoint(p, other));
      return plus(carried, scaled(drift, part.slope(along) * magnitude(d)));
    },
  };
};

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
