/**
 * A sheet longer than the scanner, scanned in overlapping parts, becomes one picture. The scanner's own scale and shear are taken out
 * first (that is what each scan's `toMm` is for), so that what is left between two scans is how the paper lay: a turn and a shift. They
 * come from the ink and the edges that both scans show: a search over all places, then a fit at full resolution.
 */
import { StaywrightError } from '../../errors.ts';
import { compose, IDENTITY, scaling, type Matrix } from '../../geometry/matrix.ts';
import type { Picture } from '../picture.ts';
import { composeSheet, sheetGrid } from './compose-sheet.ts';
import { findPlace, prepare, quoted } from './find-place.ts';
import { finenessOf, type PlacedScan, type ScanToJoin } from './scan-to-join.ts';
import type { SettledPlace } from './settle-place.ts';

/** How one scan was joined to those before it. */
interface Joint extends Omit<SettledPlace, 'place'> {
  readonly name: string;
  /** From the scan's own millimetres to the sheet's: a turn and a shift. */
  readonly place: Matrix;
  /** The scan lies upside down against the first. */
  readonly isTurnedRound: boolean;
}

export interface JoinedScans {
  readonly picture: Picture;
  readonly pxPerMm: number;
  /** From places in the joined picture to millimetres: `pxPerMm` alone, for all else is corrected. */
  readonly toMm: Matrix;
  /** From places in each scan to places in the joined picture, in the order of the scans. */
  readonly places: readonly Matrix[];
  /** How far the ink that two scans share stays apart: root mean square and worst of all joints, in millimetres. */
  readonly misfit: number;
  readonly worst: number;
  readonly joints: readonly Joint[];
}

export interface JoinOptions {
  /** Scans are to overlap by this at least, in millimetres. */
  readonly overlap?: number;
  /** The most pixels a joined picture may have. */
  readonly pixels?: number;
}

/**
 * Joins scans, in the order given: each must show, upright or upside down and up to 10 degrees askew, at least 15 mm of what those before
 * it show. The joined picture lies as the first scan's `toMm` lays it and has the resolution of the finest scan; outside all scans it
 * goes on as along their borders. Ink that two scans share comes together within 0.02 mm where their scales are right; a scale that is
 * wrong by some share stays wrong by it and shows in `misfit`.
 * Throws 'input' if scans share too little, if they fit together in more than one place, if the shared ink does not come
 * together, or if the joined picture would be too large.
 */
export const joinScans = (
  scans: readonly ScanToJoin[],
  { overlap = 15, pixels = 400e6 }: JoinOptions = {},
): JoinedScans => {
  const prepared = scans.map(prepare);
  const placed: PlacedScan[] = [];
  const joints: Joint[] = [];
  prepared.forEach((next, k) => {
    const before = prepared.slice(0, k);
    const { part } = next.fine;
    let place = IDENTITY;
    if (k > 0) {
      const settled = findPlace(before, placed, next, overlap);
      place = settled.place;
      joints.push({ ...settled, name: next.name, isTurnedRound: place.a < 0 });
    }
    placed.push({ name: next.name, picture: next.picture, toMm: next.toMm, toSheet: compose(place, next.toMm), part });
  });
  const pxPerMm = Math.max(...scans.map(({ toMm }) => finenessOf(toMm)));
  const grid = sheetGrid(placed, pxPerMm);
  if (grid.width * grid.height > pixels) {
    throw new StaywrightError(
      'input',
      `joined, ${quoted(scans.map(({ name }) => name))} would have over ${Math.round(pixels / 1e6)} million pixels`,
      {
        hint: 'scan at a lower resolution: 300 dpi is fine enough',
      },
    );
  }
  const toGrid = compose(scaling(pxPerMm), { ...IDENTITY, e: -grid.toSheet.e, f: -grid.toSheet.f });
  return {
    picture: composeSheet(placed, grid),
    pxPerMm,
    toMm: scaling(1 / pxPerMm),
    places: placed.map(({ toSheet }) => compose(toGrid, toSheet)),
    misfit: Math.hypot(...joints.map(({ misfit }) => misfit)) / Math.sqrt(Math.max(1, joints.length)),
    worst: Math.max(0, ...joints.map(({ worst }) => worst)),
    joints,
  };
};
