import { StaywrightError } from '../errors.ts';
import { pathBox } from '../geometry/box.ts';
import { nearestPoint } from '../geometry/nearest-point.ts';
import { tangentOn } from '../geometry/evaluate.ts';
import type { Location, Path } from '../geometry/path.ts';
import { distance, type Point } from '../geometry/point.ts';
import { dot, vector, type Vector } from '../geometry/vector.ts';
import { IDENTITY, type Matrix } from '../geometry/matrix.ts';
import type { Finding } from '../pattern/finding.ts';
import type { LineKind } from '../pattern/panel.ts';
import { cornerCandidates, plainCorner, TRUE_TURN, type Candidate } from './corner-candidates.ts';
import { doubtFinding, runFinding, typedPlace } from './corner-findings.ts';
import { CORNER_NAMES, type CornerName } from './label-answers.ts';

export type FourCorners = Readonly<Record<CornerName, Candidate>>;

/** Each corner's place on the panel's box, and the directions in which the outline comes to it and leaves it. */
const ROLES: Readonly<Record<CornerName, { readonly side: Vector; readonly into: Vector; readonly out: Vector }>> = {
  'top-front': { side: vector(-1, -1), into: vector(0, -1), out: vector(1, 0) },
  'top-back': { side: vector(1, -1), into: vector(1, 0), out: vector(0, 1) },
  'bottom-back': { side: vector(1, 1), into: vector(0, 1), out: vector(-1, 0) },
  'bottom-front': { side: vector(-1, 1), into: vector(-1, 0), out: vector(0, -1) },
};

/**
 * Weights of a corner's score, found on straight, tilted, tabbed and pointed panels: half a panel's width of distance is outweighed by
 * a direction that fits fully where the other does not fit at all, and nearly so by a right angle against none.
 */
const [DIRECTION_WEIGHT, TURN_WEIGHT] = [0.5, 0.4];

/**
 * What a smooth bend's score is worse by where a joint truly turns this near the corner's place, in halves of the panel's width and
 * height: the joint is the corner even where the bend below it fits better, but not a corner at the panel's other side.
 */
const [SMOOTH_PENALTY, NEAR] = [0.5, 0.5];

/** How many candidates are tried for each corner. */
const MOST_TRIED = 8;

/** A second choice that scores within this of the first leaves a doubt. */
const CLOSE_SCORE = 0.12;

/** A corner given by hand must lie this near the outline, in millimetres; and this near a joint it is that joint. */
const [HAND_REACH, HAND_SNAP] = [10, 1];

/**
 * The four corners of a panel that hangs on its grain: of the sharpest turns those nearest the corners of its box, in the order of
 * the outline. `given` overrides any of them, in the coordinates of the outline, to which `hung` leads from the drawing. Throws
 * `input` where four cannot be told.
 */
export const findCorners = (
  outline: Path,
  line: LineKind,
  given: Readonly<Partial<Record<CornerName, Point>>>,
  panel: string,
  hung: Matrix = IDENTITY,
): { corners: FourCorners; findings: readonly Finding[] } => {
  const box = pathBox(outline);
  const half = vector((box.maxX - box.minX) / 2, (box.maxY - box.minY) / 2);
  const middle = { x: box.minX + half.dx, y: box.minY + half.dy };
  const found = cornerCandidates(outline, line === 'cutting', 2 * Math.min(half.dx, half.dy));
  const awayFrom = (name: CornerName, { at }: Candidate): number => {
    const { side } = ROLES[name];
    return Math.hypot((at.x - middle.x) / half.dx - side.dx, (at.y - middle.y) / half.dy - side.dy);
  };
  const turnsNear = (name: CornerName): boolean =>
    found.some((other) => !other.smooth && other.turn > TRUE_TURN && awayFrom(name, other) < NEAR);
  const score = (candidate: Candidate, name: CornerName): number => {
    const { into, out } = ROLES[name];
    const fit = (dot(candidate.into, into) + dot(candidate.out, out)) / 2;
    const sharp = Math.min(candidate.turn, Math.PI / 2) / (Math.PI / 2);
    const penalty = candidate.smooth && turnsNear(name) ? SMOOTH_PENALTY : 0;
    return awayFrom(name, candidate) - DIRECTION_WEIGHT * fit - TURN_WEIGHT * sharp + penalty;
  };
  const tried = CORNER_NAMES.map((name) => {
    const at = given[name];
    if (at !== undefined) return [{ candidate: cornerByHand(outline, at, name, panel), score: 0 }];
    return found
      .map((candidate) => ({ candidate, score: score(candidate, name) }))
      .toSorted((a, b) => a.score - b.score)
      .slice(0, MOST_TRIED);
  });
  const best = bestFour(tried, outline.segments.length);
  if (best === undefined) {
    throw new StaywrightError(
      'input',
      `cannot tell the four corners of panel ${panel}: it has ${found.length} sharp turns`,
      {
        where: `panel ${panel}`,
        hint: `say where they are: --corner ${panel}=top-front:120mm,45mm and the like, on the drawing`,
      },
    );
  }
  const corners = Object.fromEntries(CORNER_NAMES.map((name, at) => [name, best[at]!.candidate])) as FourCorners;
  const onDrawing = (corner: Candidate): string => typedPlace(outline, corner, hung);
  const findings = CORNER_NAMES.flatMap((name, at) => {
    const chosen = best[at]!;
    const rival = tried[at]!.find(
      (other) =>
        other.score - chosen.score < CLOSE_SCORE && !overlaps(other.candidate, corners, outline.segments.length),
    );
    return [
      ...runFinding(chosen.candidate, name, panel, onDrawing),
      ...(rival ? [doubtFinding(rival.candidate, chosen.candidate, name, panel, onDrawing)] : []),
    ];
  });
  return { corners, findings };
};

interface Scored {
  readonly candidate: Candidate;
  readonly score: number;
}

/** The four with the least sum of scores that follow each other round the outline without sharing a part of it. */
const bestFour = (tried: readonly (readonly Scored[])[], total: number): readonly Scored[] | undefined => {
  let best: readonly Scored[] | undefined;
  let least = Infinity;
  const extend = (chosen: readonly Scored[], sum: number): void => {
    if (chosen.length === CORNER_NAMES.length) {
      if (sum < least) [best, least] = [chosen, sum];
      return;
    }
    for (const next of tried[chosen.length]!) {
      if (
        inOrder(
          [...chosen, next].map((scored) => scored.candidate),
          total,
        )
      )
        extend([...chosen, next], sum + next.score);
    }
  };
  extend([], 0);
  return best;
};

const along = (place: Location): number => place.segment + place.t;

const inOrder = (candidates: readonly Candidate[], total: number): boolean => {
  const start = along(candidates[0]!.from);
  const after = (place: Location): number => (along(place) - start + total) % total;
  let reached = 0;
  for (const [at, candidate] of candidates.entries()) {
    const from = after(candidate.from);
    const to = after(candidate.to);
    if ((at > 0 && from <= reached) || to < from) return false;
    reached = to;
  }
  return true;
};

/** Whether a candidate is one of the corners, or the part of the outline that one stands for. */
const overlaps = (candidate: Candidate, corners: FourCorners, total: number): boolean =>
  Object.values(corners).some((corner) => {
    const after = (place: Location): number => (along(place) - along(corner.from) + total) % total;
    const length = after(corner.to);
    return (
      after(candidate.from) <= length || after(candidate.to) <= length || after(candidate.from) > after(candidate.to)
    );
  });

const cornerByHand = (outline: Path, at: Point, name: CornerName, panel: string): Candidate => {
  const nearest = nearestPoint(outline, at);
  if (nearest.distance > HAND_REACH) {
    throw new StaywrightError('usage', `the outline of ${panel} is ${nearest.distance.toFixed(1)} mm away from there`, {
      where: `--corner ${panel}=${name}`,
      hint: 'give the place on the drawing from its upper left, like 120mm,45mm',
    });
  }
  const joint = outline.segments.findIndex((segment) => distance(segment.start, nearest.point) <= HAND_SNAP);
  if (joint >= 0) return plainCorner(outline, joint);
  const direction = tangentOn(outline.segments[nearest.location.segment]!, nearest.location.t);
  return {
    from: nearest.location,
    to: nearest.location,
    at: nearest.point,
    into: direction,
    out: direction,
    turn: 0,
    run: 'none',
    smooth: true,
  };
};
