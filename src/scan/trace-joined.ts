import { StaywrightError } from '../errors.ts';
import { compose, inverse } from '../geometry/matrix.ts';
import { joinScans } from './join/join-scans.ts';
import { sameScanner } from './join/same-scanner.ts';
import type { Scan } from './read-picture.ts';
import { findOutlines } from './rough/find-outlines.ts';
import { findSquares } from './scale/find-squares.ts';
import type { TraceAnswers } from './trace-answers.ts';
import { scaleScan, tracePanels, type Say, type ScaledScan } from './trace-picture.ts';
import type { ScanScale, Traced } from './traced.ts';

/** How far what two scans share stays apart after they are joined: root mean square and worst, in millimetres. */
export interface JoinMisfit {
  readonly rms: number;
  readonly worst: number;
}

/** A joined picture, what was traced in it, and how well it is joined. */
export interface JoinedTrace {
  readonly scan: Scan;
  readonly traced: Traced;
  readonly misfit: JoinMisfit;
}

/** How near a square in the joined picture must come to the test square's side. */
const SIDE_FITS = 0.03;

/**
 * Overlapping scans of one sheet as one: each is corrected by its own square, or by the square of the first scan that shows one, for they
 * come from one scanner; then they are joined on what they share. Throws as `scaleScan`, `joinScans` and `tracePanels` do.
 */
export const traceJoined = (scans: readonly Scan[], answers: TraceAnswers, say: Say): JoinedTrace => {
  say('finding the scale');
  const scaled = scaleAll(scans, answers);
  const known = scaled.find((one) => one !== undefined)!;
  say('joining the scans');
  const joined = joinScans(
    scans.map(({ name, picture }, at) => ({
      name,
      picture,
      toMm: scaled[at]?.scale.toMm ?? sameScanner(known.scale.toMm),
    })),
  );
  const { picture, pxPerMm } = joined;
  // The sheet lies as the scan with the square says, whichever of them that is.
  const toMm = compose(known.scale.toMm, inverse(joined.places[scaled.indexOf(known)]!));
  const found = findOutlines(picture, pxPerMm, known.found.kind);
  const side = (answers.testSquare ?? 0) * pxPerMm;
  const squares = findSquares(found.outlines)
    .filter((square) => Math.abs(square.side / side - 1) < SIDE_FITS)
    .map(({ outline }) => outline);
  const scan = { ...scans[0]!, name: scans.map(({ name }) => name).join(' + '), picture };
  const { corners: _, ...told } = known.scale;
  const scale: ScanScale = { ...told, toMm };
  const findings = scaled.flatMap((one) => one?.findings ?? []);
  const traced = tracePanels(scan, { found, scale, squares, pxPerMm, findings }, say);
  return { scan, traced, misfit: { rms: joined.misfit, worst: joined.worst } };
};

/** The scale of each scan; of one that shows no square, none, so long as another shows it. */
const scaleAll = (scans: readonly Scan[], answers: TraceAnswers): (ScaledScan | undefined)[] => {
  let refused: unknown;
  const scaled = scans.map((scan) => {
    try {
      return scaleScan(scan, answers);
    } catch (error) {
      if (!(error instanceof StaywrightError)) throw error;
      refused ??= error;
      return undefined;
    }
  });
  if (scaled.every((one) => one === undefined)) throw refused;
  return scaled;
};
