/**
 * Where a cutting line's curves were cut short in a corner (a hollow corner, or one of two widths), their parallels do not reach the
 * net corner by themselves. A mitre carries them on straight; here they grow back along their own curve, as they were before.
 */

import { segmentLength } from '../../geometry/arc-length.ts';
import { carryOn } from '../../geometry/carry-on.ts';
import { cornersOf } from '../../geometry/corners.ts';
import { tangentOn } from '../../geometry/evaluate.ts';
import { meetAtCorner } from '../../geometry/extend.ts';
import { pathStart, type Path } from '../../geometry/path.ts';
import { distance } from '../../geometry/point.ts';
import { reversePath } from '../../geometry/reverse-path.ts';
import type { Segment } from '../../geometry/segment.ts';
import { CORNER_TURN } from '../../geometry/tolerance.ts';
import { turn } from '../../geometry/vector.ts';

/** How far a curve is carried on, in lengths of the straight piece that it takes the place of. */
const CARRIED_ON = 1.5;

/** A corner that would move by more than this part of that piece is left as it was: the curve swings away too fast to be trusted. */
const LARGEST_MOVE = 0.5;

/** A stretch of an outline between two corners, and the edge it belongs to. */
interface Stretch {
  readonly edge: number;
  readonly path: Path;
}

/**
 * The parallels of edges (each starting where the one before it ends, as the edges do) with the straight pieces that carry on curves
 * replaced by the curves themselves. Where corners do not answer to corners the parallels are given back as they are.
 */
export const regrowCorners = (edges: readonly Path[], parallels: readonly Path[]): readonly Path[] => {
  const drawn = stretchesOf(edges);
  const grown = stretchesOf(parallels);
  if (drawn.length !== grown.length || drawn.some(({ edge }, at) => edge !== grown[at]!.edge)) return parallels;
  const paths = grown.map(({ path }) => path);
  for (const [at, { path }] of drawn.entries()) {
    const next = (at + 1) % drawn.length;
    if (next === at) continue;
    const curves = [path.segments.at(-1)!.kind === 'cubic', drawn[next]!.path.segments[0]!.kind === 'cubic'] as const;
    const met = regrowCorner(paths[at]!, paths[next]!, curves);
    if (met !== undefined) [paths[at], paths[next]] = [met.a, met.b];
  }
  return parallels.map((_, edge) => ({
    segments: grown.flatMap((stretch, at) => (stretch.edge === edge ? paths[at]!.segments : [])),
  }));
};

/** Edges parted at their corners; where two edges meet is always a part's end. */
const stretchesOf = (edges: readonly Path[]): Stretch[] =>
  edges.flatMap((path, edge) => {
    const cuts = [0, ...cornersOf(path).filter((corner) => corner > 0), path.segments.length];
    return cuts.slice(1).map((to, at) => ({ edge, path: { segments: path.segments.slice(cuts[at], to) } }));
  });

const regrowCorner = (
  a: Path,
  b: Path,
  [aCurves, bCurves]: readonly [boolean, boolean],
): { a: Path; b: Path } | undefined => {
  const first = aCurves ? withoutTip(a) : undefined;
  const back = bCurves ? withoutTip(reversePath(b)) : undefined;
  if (first === undefined && back === undefined) return undefined;
  const met = meetAtCorner(first?.path ?? a, back === undefined ? b : reversePath(back.path));
  if (met === undefined) return undefined;
  const moved = distance(pathStart(met.b), pathStart(b));
  return moved <= LARGEST_MOVE * Math.max(first?.length ?? 0, back?.length ?? 0) ? met : undefined;
};

/** The path without a last straight piece that carries a curve on, the curve carried on instead; undefined where there is none. */
const withoutTip = ({ segments }: Path): { path: Path; length: number } | undefined => {
  const [curve, tip] = [segments.at(-2), segments.at(-1)!];
  if (curve?.kind !== 'cubic' || tip.kind !== 'line' || !isSmooth(curve, tip)) return undefined;
  const length = segmentLength(tip);
  return { path: carryOn({ segments: segments.slice(0, -1) }, CARRIED_ON * length), length };
};

const isSmooth = (a: Segment, b: Segment): boolean => Math.abs(turn(tangentOn(a, 1), tangentOn(b, 0))) <= CORNER_TURN;
