/**
 * Where the strands of an offset cross one another and themselves: found between the links of polylines laid along them, on a grid so
 * that the cost grows with the number of links, then polished. Two strands that run along each other for a stretch have no crossing.
 */

import { chordCount } from './offset-clearance.ts';
import { gridOf, newLinks, setLink } from './offset-grid.ts';
import { sourceCurvature, type Source } from './offset-source.ts';
import { crossStrands, strandPoint, type Strand } from './offset-strand.ts';
import { distance, type Point } from './point.ts';
import { LINK_ERROR, LINK_HAIR, SAME_PARAMETER, SAME_POINT } from './tolerance.ts';

/** Two crossings of the same strands nearer than this (mm) are one. */
const SAME_CROSSING = SAME_POINT / 5;
/** How far from their ends, as parts of a strand, two that are not joined are tried for a crossing. */
const END_REACHES = [0, 0.02, 0.1, 0.4];
/** The last tenth of a strand: a crossing that slides off there is looked for on the strand beyond. */
const NEAR_END = 0.1;
const CURVATURE_LOOKS = 8;

/** The strands by number, the parameter on each, and the place. */
export interface StrandMeeting {
  readonly point: Point;
  readonly first: number;
  readonly firstT: number;
  readonly second: number;
  readonly secondT: number;
}

/** All crossings of the strands, each once, polished on the true parallels. */
export const strandCrossings = (strands: readonly Strand[], sources: readonly Source[]): readonly StrandMeeting[] => {
  const counts = strands.map((strand) => linkCount(strand, sources[strand.source]!));
  const total = counts.reduce((sum, n) => sum + n, 0);
  const links = newLinks(total);
  const owner = new Int32Array(total);
  const place = new Int32Array(total);
  for (let i = 0, link = 0; i < strands.length; i += 1) {
    const strand = strands[i]!;
    let a = strand.start;
    for (let k = 0; k < counts[i]!; k += 1, link += 1) {
      const b = strandPoint(strand, sources[strand.source]!, linkEnd(strand, counts[i]!, k + 1));
      setLink(links, link, a, b);
      owner[link] = i;
      place[link] = k;
      a = b;
    }
  }
  const { ax, ay, bx, by } = links;
  const grid = gridOf(links, 0);
  const found: StrandMeeting[] = [];
  const meet = (p: number, q: number): void => {
    const i = owner[p]!;
    const j = owner[q]!;
    if (i === j && Math.abs(place[p]! - place[q]!) <= 1) return;
    if (strands[i]!.joined && (i + 1) % strands.length === j && place[p] === counts[i]! - 1 && place[q] === 0) return;
    if (strands[j]!.joined && (j + 1) % strands.length === i && place[q] === counts[j]! - 1 && place[p] === 0) return;
    const vx = bx[p]! - ax[p]!;
    const vy = by[p]! - ay[p]!;
    const wx = bx[q]! - ax[q]!;
    const wy = by[q]! - ay[q]!;
    const ox = ax[q]! - ax[p]!;
    const oy = ay[q]! - ay[p]!;
    const determinant = vx * wy - vy * wx;
    const t = (ox * wy - oy * wx) / determinant;
    const u = (ox * vy - oy * vx) / determinant;
    if (!(t >= -LINK_HAIR && t <= 1 + LINK_HAIR && u >= -LINK_HAIR && u <= 1 + LINK_HAIR)) return;
    const [first, second] = [strands[i]!, strands[j]!];
    const a = linkEnd(first, counts[i]!, place[p]! + Math.min(1, Math.max(0, t)));
    const b = linkEnd(second, counts[j]!, place[q]! + Math.min(1, Math.max(0, u)));
    polish(i, a, j, b);
  };
  /** Polishes a crossing; one that slides off the end of a strand is looked for on the strand joined there. */
  const polish = (i: number, a: number, j: number, b: number): void => {
    if (polishOn(i, a, j, b)) return;
    const [onFirst, onSecond] = [beside(i, a), beside(j, b)];
    for (const [k, c] of onFirst) if (polishOn(k, c, j, b)) return;
    for (const [l, e] of onSecond) if (polishOn(i, a, l, e)) return;
    for (const [k, c] of onFirst) for (const [l, e] of onSecond) if (polishOn(k, c, l, e)) return;
  };
  /** The strands joined to one at either end, if the parameter lies near that end, each at the end where it is joined. */
  const beside = (i: number, t: number): (readonly [number, number])[] => {
    const strand = strands[i]!;
    const along = (t - strand.from) / (strand.to - strand.from);
    const before = (i + strands.length - 1) % strands.length;
    const after = (i + 1) % strands.length;
    const ends: (readonly [number, number])[] = [];
    if (along <= NEAR_END && strands[before]!.joined) ends.push([before, strands[before]!.to]);
    if (along >= 1 - NEAR_END && strand.joined) ends.push([after, strands[after]!.from]);
    return ends;
  };
  const polishOn = (p: number, pt: number, q: number, qt: number): boolean => {
    const [i, a, j, b] = p <= q ? [p, pt, q, qt] : [q, qt, p, pt];
    const [first, second] = [strands[i]!, strands[j]!];
    const crossing = crossStrands(first, sources[first.source]!, a, second, sources[second.source]!, b);
    if (crossing === undefined || (i === j && Math.abs(crossing.a - crossing.b) < SAME_PARAMETER)) return false;
    // Where two strands are joined they meet, and do not cross.
    if (first.joined && j === (i + 1) % strands.length && crossing.a === first.to && crossing.b === second.from)
      return false;
    if (second.joined && i === (j + 1) % strands.length && crossing.b === second.to && crossing.a === first.from)
      return false;
    const known = found.some(
      (c) => c.first === i && c.second === j && distance(c.point, crossing.point) < SAME_CROSSING,
    );
    if (!known) found.push({ point: crossing.point, first: i, firstT: crossing.a, second: j, secondT: crossing.b });
    return true;
  };
  // Where the line is broken its ends cross near by, often too shallowly for links to show.
  for (const [i, strand] of strands.entries()) {
    const j = (i + 1) % strands.length;
    if (strand.joined || i === j) continue;
    const next = strands[j]!;
    for (const reach of END_REACHES) {
      const a = strand.to - reach * (strand.to - strand.from);
      const b = next.from + reach * (next.to - next.from);
      polish(i, a, j, b);
    }
  }
  for (let p = 0; p < total; p += 1) {
    const p0 = grid.column(Math.min(ax[p]!, bx[p]!));
    const p1 = grid.column(Math.max(ax[p]!, bx[p]!));
    const r0 = grid.row(Math.min(ay[p]!, by[p]!));
    const r1 = grid.row(Math.max(ay[p]!, by[p]!));
    for (let r = r0; r <= r1; r += 1) {
      for (let c = p0; c <= p1; c += 1) {
        const cell = r * grid.columns + c;
        for (let h = grid.first[cell]!; h < grid.first[cell + 1]!; h += 1) {
          const q = grid.held[h]!;
          if (q <= p) continue;
          // Two links may share several cells: they are compared in the first of them alone.
          if (c !== Math.max(p0, grid.column(Math.min(ax[q]!, bx[q]!)))) continue;
          if (r !== Math.max(r0, grid.row(Math.min(ay[q]!, by[q]!)))) continue;
          meet(p, q);
        }
      }
    }
  }
  return found;
};

const linkEnd = (strand: Strand, count: number, k: number): number =>
  k === count ? strand.to : strand.from + ((strand.to - strand.from) * k) / count;

/** How many links keep near the strand; the parallel of a tight turn is longer than the turn. */
const linkCount = (strand: Strand, source: Source): number => {
  if (strand.kind === 'line' || source.straight) return 1;
  let longest = 1;
  for (let k = 0; k <= CURVATURE_LOOKS; k += 1) {
    const t = strand.from + ((strand.to - strand.from) * k) / CURVATURE_LOOKS;
    longest = Math.max(longest, 1 + source.distance * sourceCurvature(source, t));
  }
  return Math.max(1, Math.ceil(chordCount(source, LINK_ERROR / Math.min(longest, 100)) * (strand.to - strand.from)));
};
