import { joinPaths } from '../../geometry/join-paths.ts';
import type { Location, Path } from '../../geometry/path.ts';
import { distance } from '../../geometry/point.ts';
import { simplifyPath } from '../../geometry/simplify-path.ts';
import { subPath } from '../../geometry/sub-path.ts';
import { REFIT_TOLERANCE, SAME_POINT } from '../../geometry/tolerance.ts';
import { mixSeams } from './mix-seams.ts';
import type { SplicePlan } from './splice-plan.ts';

/** Where merging leaves more nodes than an edge may have, it is eased so far: amounts at levels stay within 0.01 mm. */
const EASINGS = [1, 2, 4, 8] as const;

interface Part {
  readonly path: Path;
  readonly fitted: boolean;
}

const endOf = (path: Path): Location => ({ segment: path.segments.length - 1, t: 1 });

const isPoint = ({ segments }: Path): boolean =>
  segments.length === 1 && distance(segments[0]!.start, segments[0]!.end) < SAME_POINT;

/** Twice the nodes of an edge that was put in, and four more. */
const mostSegments = ({ segments }: Path): number => 2 * segments.length + 5;

/** As few segments in the fitted parts as the tolerance allows, eased until an edge has few enough for this one, or at least for the other. */
const joined = (parts: readonly Part[], mine: Path, other: Path): Path => {
  const paths: Path[] = [];
  for (const easing of EASINGS) {
    const eased = parts.map(({ path, fitted }) => (fitted ? simplifyPath(path, REFIT_TOLERANCE * easing) : path));
    const whole = joinPaths(...eased);
    if (whole.segments.length <= mostSegments(mine)) return whole;
    paths.push(whole);
  }
  return paths.find(({ segments }) => segments.length <= mostSegments(other)) ?? paths.at(-1)!;
};

/** Whether two paths have the same nodes and handles, to less than is written. */
export const isSamePath = (a: Path, b: Path): boolean =>
  a.segments.length === b.segments.length &&
  a.segments.every((s, i) => {
    const r = b.segments[i]!;
    const near = distance(s.start, r.start) < SAME_POINT && distance(s.end, r.end) < SAME_POINT;
    if (s.kind === 'line' || r.kind === 'line') return near && s.kind === r.kind;
    return (
      near && distance(s.startHandle, r.startHandle) < SAME_POINT && distance(s.endHandle, r.endHandle) < SAME_POINT
    );
  });

/**
 * A path that takes over from one version to the other as planned, both run downwards. Outside the blends its segments are those of the
 * version that rules there; where the two are one path it is this one's, the very same object. Instead of a path, the reason in words
 * that follow `a seam that`.
 */
export const spliceSeam = (mine: Path, other: Path, plan: SplicePlan): Path | string => {
  if (isSamePath(mine, other)) return mine;
  const sources = { mine, other };
  let ruling: keyof typeof sources = plan.first === 'this' ? 'mine' : 'other';
  let from: Location = { segment: 0, t: 0 };
  const parts: Part[] = [];
  const keep = (path: Path): void => {
    if (!isPoint(path)) parts.push({ path, fitted: false });
  };
  for (const mix of plan.mixes) {
    const mixed = mixSeams(mine, other, mix, plan);
    if (typeof mixed === 'string') return mixed;
    const next = ruling === 'mine' ? 'other' : 'mine';
    if (mixed.same) {
      // This seam's own segments run through; the other's begin or end at the stretch's far side.
      if (ruling === 'mine') keep(subPath(mine, from, mixed.mine[1]));
      else keep(subPath(other, from, mixed.other[0]));
      from = ruling === 'mine' ? mixed.other[1] : mixed.mine[0];
    } else {
      keep(subPath(sources[ruling], from, mixed[ruling][0]));
      parts.push({ path: mixed.path, fitted: true });
      from = mixed[next][1];
    }
    ruling = next;
  }
  if (parts.length === 0 && plan.mixes.length === 0) return sources[ruling];
  keep(subPath(sources[ruling], from, endOf(sources[ruling])));
  return joined(parts, mine, other);
};
