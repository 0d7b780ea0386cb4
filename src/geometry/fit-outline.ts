/**
 * An outline through noisy readings: corners found and kept sharp, few cubics and lines between them, by robust least squares on the
 * orthogonal distance over the whole ring at once. Readings near a corner say nothing, so that it becomes the meeting of its two sides.
 */
import { adjustOutline } from './fit-outline/adjust-outline.ts';
import { inOrder, slid, withoutCrowding, withoutTwists } from './fit-outline/change-pieces.ts';
import { feetFor, plantFeet } from './fit-outline/feet.ts';
import { cornerNear, findCorners, nearestAlong, turnBetween } from './fit-outline/find-corners.ts';
import { MEDIAN_TO_SPREAD, medianOf } from './fit-outline/local-fit.ts';
import { coarseModel } from './fit-outline/first-model.ts';
import { measureNoise, type Noise } from './fit-outline/measure-noise.ts';
import { pathOfModel, pointsOfPiece, type OutlineModel } from './fit-outline/outline-model.ts';
import type { Reading } from './fit-outline/reading.ts';
import { ringOfReadings, roundTo, type Ring } from './fit-outline/ring.ts';
import { shapeRuns } from './fit-outline/shape-runs.ts';
import { thinRing } from './fit-outline/thin-ring.ts';
import { awayFromCorners, lessOutliers } from './fit-outline/weigh-readings.ts';
import type { Path } from './path.ts';
import { distance, point, type Point } from './point.ts';
import { line } from './segment.ts';

export type { Reading } from './fit-outline/reading.ts';

export interface FitOptions {
  /** How many of the readings' units go to a millimetre. */
  readonly pxPerMm: number;
  /** How far from a corner readings are worn, in the readings' units; at corners sharper than a right angle it is taken larger. */
  readonly blunt: number;
  /** The least noise of a reading across the outline, in its units; more is taken where the readings show it. */
  readonly noise?: number;
  /** Over how many readings noise goes together at least: by so much the variance of a mean is larger than if they were independent. */
  readonly correlation?: number;
  /** Where corners were found in an earlier round. */
  readonly corners?: readonly Point[];
  /** The fit of an earlier round, where only its measures are to be put right: its corners and pieces are kept where they stand. */
  readonly start?: FittedOutline;
  /**
   * No better than is needed to measure again along the path: `coarse`, with more pieces than it needs, within some hundredths of a
   * millimetre; `thin`, with the right pieces, fitted to thinned readings only.
   */
  readonly draft?: 'coarse' | 'thin';
}

export interface FittedOutline {
  /** Closed; runs the way the readings do. */
  readonly path: Path;
  /** In the order of the path. */
  readonly corners: readonly Point[];
  /** Root mean square distance of the readings but for outliers and those near corners. */
  readonly spread: number;
  /** What a later fit may start from; none for a polygon. */
  readonly model?: OutlineModel;
}

const FEWEST = 16;
const SHORTEST_RING_MM = 5;
const THIN_MM = 0.35;
const LEAST_NOISE = 0.005;
const THIN_ROUNDS = 20;
const FINAL_PASSES = 3;
const DRAFT_PASSES = 1;
const FINAL_ROUNDS = 3;
/** A corner that turns less than this, about 8.5 degrees, once its runs are fitted is none. */
const LEAST_TURN = 0.148;
const TRIES = 3;

/** The turn at node k, from the handles on both sides. */
const turnAt = (model: OutlineModel, k: number): number => {
  const count = model.nodes.length;
  const [, , , , ax, ay, bx, by] = pointsOfPiece(model, (k + count - 1) % count) as EightNumbers;
  const [cx, cy, dx, dy] = pointsOfPiece(model, k) as EightNumbers;
  return turnBetween(Math.atan2(by - ay, bx - ax), Math.atan2(dy - cy, dx - cx));
};

type EightNumbers = [number, number, number, number, number, number, number, number];

const polygon = (readings: readonly Reading[]): FittedOutline => {
  const places = readings.map((r) => r.at);
  return {
    path: { segments: places.map((p, i) => line(p, places[(i + 1) % places.length]!)) },
    corners: places,
    spread: 0,
  };
};

/** Corners and pieces found from the readings alone. */
const shapedAnew = (ring: Ring, noise: Noise, options: FitOptions): OutlineModel => {
  const { pxPerMm, blunt, corners: guesses = [], draft } = options;
  const thin = thinRing(ring, pxPerMm, Math.max(THIN_MM * pxPerMm, ring.spacing), draft === 'coarse');
  let corners = findCorners({ ring, noise, pxPerMm, blunt }, thin, guesses);
  let model: OutlineModel = { nodes: [], pieces: [] };
  for (let tries = 0; tries < TRIES; tries += 1) {
    const shaped =
      draft === 'coarse'
        ? coarseModel(thin, corners, noise, pxPerMm, blunt)
        : shapeRuns(thin, corners, noise, pxPerMm, blunt);
    const weights = awayFromCorners(thin, shaped, blunt);
    model = adjustOutline(thin, weights, shaped, feetFor(thin, shaped), noise.sigma, THIN_ROUNDS);
    const sharp = new Set(
      model.nodes.filter((node, k) => node.corner && Math.abs(turnAt(model, k)) > LEAST_TURN).map((n) => n.along),
    );
    const left = corners.filter((corner) => sharp.has(corner.along));
    if (left.length === corners.length) break;
    corners = left;
  }
  return model;
};

/** Corners that are seen farther than this from where an earlier fit has them were not where they are. */
const CORNER_STANDS_MM = 0.1;

/** The model of an earlier round, where its corners are still seen where it has them. */
const startedFrom = (ring: Ring, noise: Noise, { start, pxPerMm, blunt }: FitOptions): OutlineModel | undefined => {
  if (start?.model === undefined) return undefined;
  const stands = start.corners.every((corner) => {
    const seen = cornerNear({ ring, noise, pxPerMm, blunt }, corner);
    return seen !== undefined && distance(seen, corner) < CORNER_STANDS_MM * pxPerMm;
  });
  return stands ? inOrder(onRing(ring, start.model), ring.total, false) : undefined;
};

/** The model's nodes with how far along another ring they lie. */
const onRing = (ring: Ring, { nodes, pieces }: OutlineModel): OutlineModel => ({
  nodes: nodes.map((node) => ({
    ...node,
    along: roundTo(ring.total, nearestAlong(ring, ring.total / 2, node, ring.total / 2)),
  })),
  pieces,
});

export const fitOutline = (readings: readonly Reading[], options: FitOptions): FittedOutline => {
  const { pxPerMm, blunt, noise: least = LEAST_NOISE } = options;
  const ring = ringOfReadings(readings);
  if (ring.count < FEWEST || ring.total < SHORTEST_RING_MM * pxPerMm) return polygon(readings);
  const measured = measureNoise(ring, pxPerMm, least);
  const noise = { ...measured, correlation: Math.max(measured.correlation, options.correlation ?? 1) };
  let model = startedFrom(ring, noise, options) ?? shapedAnew(ring, noise, options);
  let feet = feetFor(ring, model);
  plantFeet(ring, model, feet, 4);
  let weights = ring.weight;
  for (let pass = 0; pass < (options.draft ? DRAFT_PASSES : FINAL_PASSES); pass += 1) {
    const near = awayFromCorners(ring, model, blunt);
    const off = Float64Array.from(
      feet.off.filter((_, i) => near[i]! > 0),
      Math.abs,
    );
    const spread = Math.max(least, MEDIAN_TO_SPREAD * medianOf(off));
    weights = lessOutliers(near, feet, spread);
    if (options.draft) continue;
    model = adjustOutline(ring, weights, model, feet, noise.sigma, FINAL_ROUNDS);
    // A node that slid to another leaves a piece between them that hardly a reading holds.
    const calm = withoutCrowding(slid(ring, model, feet), ring, pxPerMm);
    const straightened = withoutTwists(calm);
    if (straightened === calm && calm.pieces.length === model.pieces.length) continue;
    model = straightened;
    feet = feetFor(ring, model);
    model = adjustOutline(ring, weights, model, feet, noise.sigma, THIN_ROUNDS);
  }
  let [squares, sum] = [0, 0];
  for (let i = 0; i < ring.count; i += 1) {
    if (weights[i] === 0) continue;
    squares += ring.weight[i]! * feet.off[i]! ** 2;
    sum += ring.weight[i]!;
  }
  return {
    path: pathOfModel(model),
    corners: model.nodes.filter((n) => n.corner).map(({ x, y }) => point(x, y)),
    model,
    spread: sum > 0 ? Math.sqrt(squares / sum) : 0,
  };
};
