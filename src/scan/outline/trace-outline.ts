/**
 * From a rough outline to the outline itself: it is measured across at every tenth of a millimetre, a path is fitted to what was read,
 * and then it is measured again along that path, with its own normals and clear of its corners, until it stands still. The last rounds
 * reach less far, so that fewer other lines come into view.
 */
import { fitOutline, type FittedOutline } from '../../geometry/fit-outline.ts';
import type { Path } from '../../geometry/path.ts';
import type { Point } from '../../geometry/point.ts';
import type { Picture } from '../picture.ts';
import type { RoughOutline } from '../rough-outline.ts';
import { ROUGH_REACH } from './measure-edge.ts';
import { profileReader } from './profile-reader.ts';
import { readStations } from './read-stations.ts';
import { settleReadings, type Settled } from './settle-readings.ts';
import type { Stations } from './stations.ts';
import { walkPath } from './walk-path.ts';
import { walkRough } from './walk-rough.ts';

/** An outline as it was measured; lengths and places in pixels. */
export interface TracedOutline {
  /** Closed, clockwise. */
  readonly path: Path;
  readonly corners: readonly Point[];
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

/** A path that moves by less than this stands still; millimetres. */
const STILL = 0.002;

/** Beside a corner, paper is seen from so many pixels of blur on. */
const CLEAR_OF_BLUR = 2.5;

/** A tip sharper than this turn (170 degrees) blunts no more than it. */
const SHARPEST = 2.97;

/** Root mean square of what was read, from its stations: how far a path moves with it. */
const movedBy = (stations: Stations, { readings }: Settled): number => {
  let [squares, sum] = [0, 0];
  for (const [k, { at, weight }] of readings.entries()) {
    squares += weight * ((at.x - stations.x[k]!) ** 2 + (at.y - stations.y[k]!) ** 2);
    sum += weight;
  }
  return sum === 0 ? 0 : Math.sqrt(squares / sum);
};

/**
 * The outline near `rough`, which is within about 0.3 mm of it away from corners, in a picture of about `pxPerMm` pixels a millimetre.
 * Undefined where too little of it could be read to fit a path.
 */
export const traceOutline = (picture: Picture, rough: RoughOutline, pxPerMm: number): TracedOutline | undefined => {
  const { edge } = rough;
  let stations = walkRough(rough.points, pxPerMm);
  let fitted: FittedOutline | undefined;
  let settled: Settled | undefined;
  let moved = Infinity;
  for (let round = 0; round <= MOST_ROUNDS; round++) {
    const reach = (round === 0 ? ROUGH_REACH : REACHES[Math.min(round, REACHES.length) - 1]!) * pxPerMm;
    const reader = profileReader(edge, pxPerMm, reach, settled?.lineWidth);
    const taken = readStations(picture, stations, reader, pxPerMm);
    settled = settleReadings(stations, taken, pxPerMm, round === 0 ? STEEPEST_ROUGH : STEEPEST);
    if (settled.readings.every(({ weight }) => weight === 0)) return undefined;
    const half = (settled.lineWidth ?? 0) / 2;
    const before = moved;
    moved = movedBy(stations, settled);
    fitted = fitOutline(settled.readings, {
      pxPerMm,
      blunt: half + CLEAR_OF_BLUR,
      ...(fitted && { corners: fitted.corners }),
    });
    if (round > 1 && before - moved < STILL * pxPerMm) break;
    stations = walkPath(
      fitted.path,
      fitted.corners,
      pxPerMm,
      (turn) => half * Math.tan(Math.min(turn, SHARPEST) / 2) + CLEAR_OF_BLUR + stations.spacing,
    );
  }
  const { lineWidth, bridged } = settled!;
  return { ...fitted!, bridged, ...(lineWidth !== undefined && { lineWidth }) };
};
