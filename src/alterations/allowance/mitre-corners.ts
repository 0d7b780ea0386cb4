/**
 * A cutting line's square and folded corners brought back to plain ones, before the allowance is taken off. What those corners add
 * belongs to no edge: the seam's end that was cut at right angles, the flap that mirrors the seam past a fold. Both are recognised
 * by the very widths that are taken off, so that an edge's own corners are left alone.
 */

import { pathLength } from '../../geometry/arc-length.ts';
import { carryOn } from '../../geometry/carry-on.ts';
import { cornersOf } from '../../geometry/corners.ts';
import { tangentOn } from '../../geometry/evaluate.ts';
import { meetAtCorner } from '../../geometry/extend.ts';
import { nearestPoint } from '../../geometry/nearest-point.ts';
import { pathStart, type Path } from '../../geometry/path.ts';
import { distance, movePoint } from '../../geometry/point.ts';
import { reversePath } from '../../geometry/reverse-path.ts';
import { line } from '../../geometry/segment.ts';
import { dot, plus, scaled, turn, type Vector } from '../../geometry/vector.ts';
import { sidesOf } from '../../pattern/look-up.ts';
import type { Panel } from '../../pattern/panel.ts';

/** How much a drawn width may differ from the one taken off, in millimetres, and a drawn direction from the exact one, in radians. */
const SAME_WIDTH = 0.3;
const SAME_DIRECTION = 0.03;

/** The longest flap, in widths: past that its seam runs nearly along the fold. */
const LONGEST_FLAP = 6;

/** How far curves that were cut short are carried on to meet again, in widths. */
const CARRIED_ON = 1.5;

interface Pair {
  readonly seam: Path;
  readonly turned: Path;
}

/** The paths of a labelled panel's edges with plain corners; of any other panel as they are. */
export const mitreCorners = (panel: Panel, widths: readonly number[]): readonly Path[] => {
  const paths = panel.edges.map((edge) => edge.path);
  if (sidesOf(panel) === undefined) return paths;
  for (const [at, edge] of panel.edges.entries()) {
    const next = (at + 1) % paths.length;
    const [first, second] = [paths[at]!, paths[next]!];
    if (edge.name === 'top' || edge.name === 'bottom') {
      const back = { seam: reversePath(second), turned: reversePath(first) };
      const plain = mitreCorner(back, widths[next]!, widths[at]!);
      if (plain !== back) [paths[at], paths[next]] = [reversePath(plain.turned), reversePath(plain.seam)];
    } else {
      const plain = mitreCorner({ seam: first, turned: second }, widths[at]!, widths[next]!);
      [paths[at], paths[next]] = [plain.seam, plain.turned];
    }
  }
  return paths;
};

/** The seam ends where the other edge starts. */
const mitreCorner = (pair: Pair, seamWidth: number, turnedWidth: number): Pair => {
  const plain = withoutSquareEnd(pair, seamWidth) ?? withoutFlap(pair, turnedWidth);
  if (plain === undefined) return pair;
  const by = CARRIED_ON * Math.max(seamWidth, turnedWidth);
  const turned = reversePath(carryOn(reversePath(plain.turned), by));
  const met = meetAtCorner(carryOn(plain.seam, by), turned) ?? meetAtCorner(plain.seam, plain.turned);
  return met === undefined ? pair : { seam: met.a, turned: met.b };
};

/** Without a first straight piece that is as long as the seam's allowance is wide and square to the seam. */
const withoutSquareEnd = ({ seam, turned }: Pair, width: number): Pair | undefined => {
  const [end, ...rest] = turned.segments;
  if (end!.kind !== 'line' || rest.length === 0) return undefined;
  const along = tangentOn(seam.segments.at(-1)!, 1);
  const square = Math.abs(dot(along, tangentOn(end!, 0))) <= SAME_DIRECTION;
  const wide = Math.abs(distance(end!.start, end!.end) - width) <= SAME_WIDTH;
  return square && wide ? { seam, turned: { segments: rest } } : undefined;
};

/** Without a last piece that mirrors the seam about a line as far from the other edge as that edge's allowance is wide. */
const withoutFlap = ({ seam, turned }: Pair, width: number): Pair | undefined => {
  const fold = cornersOf(seam).at(-1);
  if (fold === undefined || fold === 0) return undefined;
  const [main, flap] = [{ segments: seam.segments.slice(0, fold) }, { segments: seam.segments.slice(fold) }];
  if (width === 0 || pathLength(flap) > LONGEST_FLAP * width) return undefined;
  const at = pathStart(flap);
  const edge = startingEarlier(reversePath(carryOn(reversePath(turned), pathLength(flap))), pathLength(flap));
  const base = nearestPoint(edge, at);
  if (Math.abs(base.distance - width) > SAME_WIDTH) return undefined;
  const across = tangentOn(edge.segments[base.location.segment]!, base.location.t);
  const out = tangentOn(main.segments.at(-1)!, 1);
  const image = reflected(scaled(out, -1), across);
  return Math.abs(turn(image, tangentOn(flap.segments[0]!, 0))) <= SAME_DIRECTION ? { seam: main, turned } : undefined;
};

/** The path with a straight piece before it, along its first direction. */
const startingEarlier = (path: Path, by: number): Path => {
  const start = pathStart(path);
  const before = movePoint(start, scaled(tangentOn(path.segments[0]!, 0), -by));
  return { segments: [line(before, start), ...path.segments] };
};

/** A vector's mirror image about a unit direction. */
const reflected = (v: Vector, about: Vector): Vector => plus(scaled(about, 2 * dot(v, about)), scaled(v, -1));
