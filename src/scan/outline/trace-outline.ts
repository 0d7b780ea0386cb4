/**
 * From a rough outline to the outline itself: it is measured across at every tenth of a millimetre, a path is fitted to what was read,
 * and then it is measured again along that path, with its own normals and clear of its corners, until it stands still. The last rounds
 * reach less far, so that fewer other lines come into view.
 */
import { fitOutline, type FittedOutline } from '../../geometry/fit-outline.ts';
import type { Path } from '../../geometry/path.ts';
import { distance, type Point } from '../../geometry/point.ts';
import type { Picture } from '../picture.ts';
import type { RoughOutline } from '../rough-outline.ts';
import { isBilevel } from './is-bilevel.ts';
import { ROUGH_REACH } from './measure-edge.ts';
import { profileReader } from './profile-reader.ts';
import { readStations } from './read-stations.ts';
import { settleReadings, type Settled } from './settle-readings.ts';
import { DRAFT_SPACING, SPACING, type Stations } from './stations.ts';
import { unseenCorners } from './unseen-corners.ts';
import { walkPath } from './walk-path.ts';
import { walkRough } from './walk-rough.ts';

/** An outline as it was measured; lengths and places in pixels. */
export interface TracedOutline {
  /** Closed, clockwise. */
  readonly path: Path;
  readonly corners: readonly Point[];
  /** Those of the corners of which a side cannot be seen. */
  readonly unseen: readonly Point[];
  /** Root mean square distance of the readings from the path. */
  readonly spread: number;
  /** How much of the outline, corners apart, had no reading to be believed. */
  readonly bridged: number;
  /** The usual width of an ink line. */
  readonly lineWidth?: number;
}

/** Millimetres: how far the second round reaches, and the later ones. */
const REACHES = [0.5, 0.3];

/** How fast the outline may leave the rough one, and the fitted one, as tangents. */
const STEEPEST_ROUGH = 0.7;
const STEEPEST = 0.3;

const MOST_ROUNDS = 4;

/** After so many rounds along a fitted path its corners and pieces stay where they stand, and only their measures are put right. */
const SHAPED_ROUNDS = 1;

/** Measured along a path, an outline that fits no better than that path, to this root mean square, stands still; millimetres. */
const STILL = 0.002;

/** So do corners that move by less than this; millimetres. */
const STILL_CORNER = 0.01;

/**
 * Where each pixel is black or white, an edge is off by up to half a pixel either way, and so for a long way where it runs along the
 * rows: the root mean square of that, and of the mean of two.
 */
const BILEVEL_EDGE = Math.sqrt(1 / 12);
const BILEVEL_LINE = Math.sqrt(1 / 24);

/** Steps of whole pixels go together over about so many readings. */
const BILEVEL_TOGETHER = 4;

/** Beside a corner, paper is seen from so many pixels of blur on. */
const CLEAR_OF_BLUR = 2.5;

/** A tip sharper than this turn (170 degrees) blunts no more than it. */
const SHARPEST = 2.97;

/** Root mean square of how far readings are from their stations. */
const offStations = (stations: Stations, { readings }: Settled): number => {
  let [squares, sum] = [0, 0];
  for (const [k, { at, weight }] of readings.entries()) {
    squares += weight * ((at.x - stations.x[k]!) ** 2 + (at.y - stations.y[k]!) ** 2);
    sum += weight;
  }
  return sum === 0 ? 0 : Math.sqrt(squares / sum);
};

/** How far the corner that moved farthest was from where any stood before; one more or one less counts as farther than any. */
const farthestMoved = (before: readonly Point[], now: readonly Point[]): number =>
  before.length === now.length
    ? Math.max(0, ...now.map((p) => Math.min(...before.map((q) => distance(p, q)))))
    : Infinity;

/**
 * The outline near `rough`, which is within about 0.3 mm of it away from corners, in a picture of about `pxPerMm` pixels a millimetre.
 * Undefined where too little of it could be read to fit a path.
 */
export const traceOutline = (picture: Picture, rough: RoughOutline, pxPerMm: number): TracedOutline | undefined => {
  const { edge } = rough;
  let stations = walkRough(rough.points, pxPerMm);
  const bilevel = isBilevel(picture, stations, ROUGH_REACH * pxPerMm);
  if (bilevel) stations = walkRough(rough.points, pxPerMm, SPACING);
  const noise = bilevel ? { noise: edge === 'ink' ? BILEVEL_LINE : BILEVEL_EDGE, correlation: BILEVEL_TOGETHER } : {};
  let fitted: FittedOutline | undefined;
  let settled: Settled | undefined;
  for (let round = 0; round <= MOST_ROUNDS; round++) {
    const reach = (round === 0 ? ROUGH_REACH : REACHES[Math.min(round, REACHES.length) - 1]!) * pxPerMm;
    const reader = profileReader(edge, pxPerMm, reach, settled?.lineWidth);
    const taken = readStations(picture, stations, reader, pxPerMm);
    settled = settleReadings(stations, taken, pxPerMm, round === 0 ? STEEPEST_ROUGH : STEEPEST);
    if (settled.readings.every(({ weight }) => weight === 0)) return undefined;
    const half = (settled.lineWidth ?? 0) / 2;
    const { corners } = fitted ?? {};
    fitted = fitOutline(settled.readings, {
      pxPerMm,
      blunt: half + CLEAR_OF_BLUR,
      ...noise,
      ...(corners && { corners }),
      ...(round > SHAPED_ROUNDS ? fitted && { start: fitted } : { draft: round < SHAPED_ROUNDS ? 'coarse' : 'thin' }),
    });
    const isStill = offStations(stations, settled) < Math.hypot(fitted.spread, STILL * pxPerMm);
    if (isStill && round > SHAPED_ROUNDS && corners && farthestMoved(corners, fitted.corners) < STILL_CORNER * pxPerMm)
      break;
    stations = walkPath(
      fitted.path,
      fitted.corners,
      pxPerMm,
      (turn) => half * Math.tan(Math.min(turn, SHARPEST) / 2) + CLEAR_OF_BLUR + stations.spacing,
      round + 1 < SHAPED_ROUNDS ? DRAFT_SPACING : SPACING,
    );
  }
  const { lineWidth, bridged, readings } = settled!;
  const { path, corners, spread } = fitted!;
  const unseen = unseenCorners(corners, readings, pxPerMm, (lineWidth ?? 0) / 2 + CLEAR_OF_BLUR);
  return { path, corners, unseen, spread, bridged, ...(lineWidth !== undefined && { lineWidth }) };
};
