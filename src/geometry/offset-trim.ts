import { distance, type Point } from './point.ts';
import { parallelAt, type Source } from './offset-source.ts';
import { crossStrands, type Strand } from './offset-strand.ts';
import { cross, dot } from './vector.ts';

/** Where the parallels of two sources cross: the parameter on each. */
export interface Trim {
  readonly before: { readonly source: number; readonly t: number };
  readonly after: { readonly source: number; readonly t: number };
  readonly point: Point;
}

/** How much farther than the tangents' crossing the parallels' may lie. */
const FARTHER = 2.5;
const MOST_SOURCES = 200;
/** A turn (radians) past which the way along the path comes to another corner. */
const NEXT_CORNER = 0.05;

/** The whole parallel of a source, its ends as its own. */
export const wholeStrand = (s: Source, index: number): Strand => ({
  kind: 'parallel',
  source: index,
  from: 0,
  to: 1,
  start: s.segment.start,
  end: s.segment.end,
  joined: false,
});

/**
 * The crossing of the parallels before and after an inward corner between the sources `i` and `j`, whose end tangents cross `length`
 * before it. Where the segments are shorter than that, those beyond them are tried, on both sides, as far as the next corner.
 * What it finds may still be too near to other parts of the path; undefined where nothing is found near by.
 */
export const trimAtCorner = (sources: readonly Source[], i: number, j: number, length: number): Trim | undefined => {
  const direct = crossingOf(sources, i, 1, j, 0);
  if (direct !== undefined) return direct;
  const back = alongFrom(sources, i, -1, length * FARTHER);
  const on = alongFrom(sources, j, 1, length * FARTHER);
  if (back.length + on.length === 2) return undefined;
  const chords = (list: readonly number[]) =>
    list.map((k) => [parallelAt(sources[k]!, 0), parallelAt(sources[k]!, 1)] as const);
  const [backChords, onChords] = [chords(back), chords(on)];
  for (const [p, [a, b]] of backChords.entries()) {
    for (const [q, [c, d]] of onChords.entries()) {
      const [vx, vy, wx, wy] = [b.x - a.x, b.y - a.y, d.x - c.x, d.y - c.y];
      const determinant = vx * wy - vy * wx;
      const t = ((c.x - a.x) * wy - (c.y - a.y) * wx) / determinant;
      const u = ((c.x - a.x) * vy - (c.y - a.y) * vx) / determinant;
      if (!(t >= 0 && t <= 1 && u >= 0 && u <= 1)) continue;
      // The chords may cross where the next curves do.
      for (const k of [back[p]!, back[p - 1], back[p + 1]]) {
        for (const l of [on[q]!, on[q - 1], on[q + 1]]) {
          if (k === undefined || l === undefined) continue;
          const found = crossingOf(sources, k, t, l, u);
          if (found !== undefined) return found;
        }
      }
    }
  }
  return undefined;
};

const crossingOf = (sources: readonly Source[], k: number, t: number, l: number, u: number): Trim | undefined => {
  const [a, b] = [sources[k]!, sources[l]!];
  const crossing = crossStrands(wholeStrand(a, k), a, t, wholeStrand(b, l), b, u);
  if (crossing === undefined) return undefined;
  return { before: { source: k, t: crossing.a }, after: { source: l, t: crossing.b }, point: crossing.point };
};

/** The sources from `first` on, forward or back, over `length` mm or to the next corner. */
const alongFrom = (sources: readonly Source[], first: number, way: 1 | -1, length: number): number[] => {
  const found = [first];
  let passed = distance(sources[first]!.segment.start, sources[first]!.segment.end);
  while (passed < length && found.length < MOST_SOURCES) {
    const last = found[found.length - 1]!;
    const next = (last + way + sources.length) % sources.length;
    const [a, b] = way > 0 ? [sources[last]!, sources[next]!] : [sources[next]!, sources[last]!];
    if (next === first || a.distance !== b.distance) break;
    if (dot(a.endTangent, b.startTangent) <= 0 || Math.abs(cross(a.endTangent, b.startTangent)) > NEXT_CORNER) break;
    found.push(next);
    passed += distance(sources[next]!.segment.start, sources[next]!.segment.end);
  }
  return found;
};
