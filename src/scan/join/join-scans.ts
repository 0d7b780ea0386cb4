/**
 * A sheet longer than the scanner, scanned in overlapping parts, becomes one picture. The scanner's own scale and shear are taken out
 * first (that is what each scan's `toMm` is for), so that what is left between two scans is how the paper lay: a turn and a shift. They
 * come from the ink and the edges that both scans show: a search over all places, then a fit at full resolution.
 */
import { StaywrightError } from '../../errors.ts';
import { compose, IDENTITY, scaling, translation, type Matrix } from '../../geometry/matrix.ts';
import type { Picture } from '../picture.ts';
import { climbPlace, likenessAt } from './climb-place.ts';
import { composeSheet, sheetGrid } from './compose-sheet.ts';
import { coarser, detailMap, reduceLight, type DetailMap } from './detail-map.ts';
import type { ScanDetail } from './laid-map.ts';
import { finenessOf, type PlacedScan, type ScanToJoin } from './scan-to-join.ts';
import { foremost, searchPlaces, WAYS } from './search-places.ts';
import { settlePlace, type SettledPlace } from './settle-place.ts';
import { sheetPart, withinPart } from './sheet-part.ts';

/** How one scan was joined to those before it. */
export interface Joint extends Omit<SettledPlace, 'place'> {
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

/** Pixels to the millimetre in which detail is looked for, and how far round a pixel its surroundings reach, in millimetres. */
const DETAIL = 2;
const ROUND = 4;

/** The overlap must look at least this much alike; places that look less alike than the best by more than `RIVAL` are no rivals. */
const ALIKE = 0.5;
const RIVAL = 0.15;

/** So many millimetres beside a place it is looked at how sharp it is. */
const BESIDE = 2;

/** Of the likeliest places, so many are looked into. */
const TRIED = 8;

/** Places are one, while they are searched for and once they are settled, if no corner of the scan differs by more; millimetres. */
const NEAR = 1;
const SAME = 0.5;

/** A place where this share of what fits in the best place fits too is a rival. */
const RIVALS_SHARE = 0.75;

/** Patches at least that must tell of a shift in every direction, and by how much the far end may be in doubt, in millimetres. */
const TOLD = 3;
const DOUBT = 0.15;

/** Of the patches with ink, at least this share must look the same, and lie this near after the join, in millimetres. */
const SHARE = 0.6;
const MISFIT = 0.12;

interface Prepared extends ScanToJoin {
  readonly fine: ScanDetail;
  readonly rough: ScanDetail;
  readonly coarse: ScanDetail;
  readonly detail: DetailMap;
}

const prepare = (scan: ScanToJoin): Prepared => {
  const pxPerMm = finenessOf(scan.toMm);
  const light = reduceLight(scan.picture, Math.max(1, Math.round(pxPerMm / DETAIL)));
  const part = sheetPart(light, pxPerMm);
  const detail = detailMap(withinPart(light, part), Math.max(2, Math.round((ROUND * pxPerMm) / light.step)));
  const laid = (size: number): ScanDetail => ({
    map: size > 1 ? coarser(detail, size) : detail,
    toMm: scan.toMm,
    part,
  });
  return { ...scan, detail, fine: laid(1), rough: laid(2), coarse: laid(5) };
};

const quoted = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;

const tooLittle = (names: readonly string[]): StaywrightError =>
  new StaywrightError('input', `${quoted(names)} share too little to be joined`, {
    hint: 'let them overlap by more, or draw two crosses, far apart, where they overlap, and scan again',
  });

/** The places where a scan looks much like what those before it show, the likeliest first. */
const likelyPlaces = (
  before: readonly Prepared[],
  placed: readonly PlacedScan[],
  next: Prepared,
  overlap: number,
  start: number,
): { place: Matrix; score: number }[] => {
  const there = (which: 'fine' | 'rough' | 'coarse'): ScanDetail[] =>
    before.map((scan, k) => ({ ...scan[which], toMm: placed[k]!.toSheet }));
  const [fine, rough] = [there('fine'), there('rough')];
  // What may be chance in a likeness: with little ink, much.
  const scoreOf = (scans: readonly ScanDetail[], own: ScanDetail, place: Matrix): number => {
    const { likeness, ink } = likenessAt(scans, own, place);
    return likeness - (2 * (1 - likeness * likeness) + 0.2) / Math.sqrt(1 + ink / 5);
  };
  const climbed: { place: Matrix; likeness: number; sharpness: number }[] = [];
  for (const found of searchPlaces(there('coarse'), next.coarse, overlap, start)) {
    const { place } = climbPlace(rough, next.rough, found.place, 1.2, 0.3);
    if (climbed.some((other) => isSamePlace(other.place, place, next, NEAR))) continue;
    const score = scoreOf(rough, next.rough, place);
    const beside = (x: number, y: number): number =>
      scoreOf(rough, next.rough, compose(translation(BESIDE * x, BESIDE * y), place));
    const drops = WAYS.map(([x, y]) => score - Math.max(beside(x, y), beside(-x, -y)));
    climbed.push({ place, likeness: score, sharpness: Math.min(...drops) });
  }
  return foremost(climbed, TRIED)
    .map((rising) => {
      const { place } = climbPlace(fine, next.fine, rising.place, 0.3, 0.06);
      return { place, score: scoreOf(fine, next.fine, place) };
    })
    .filter(({ score }) => score > ALIKE)
    .toSorted((a, b) => b.score - a.score);
};

/** The one place of a scan where its ink and that of those before it come together, or an error. */
const findPlace = (
  before: readonly Prepared[],
  placed: readonly PlacedScan[],
  next: Prepared,
  overlap: number,
): SettledPlace => {
  const names = [...before.map(({ name }) => name), next.name];
  let best: SettledPlace | undefined;
  for (const start of [0, Math.PI]) {
    const likely = likelyPlaces(before, placed, next, overlap, start);
    const settled: SettledPlace[] = [];
    for (const { place, score } of likely) {
      const known = settled.some((other) => isSamePlace(other.place, place, next, NEAR));
      // Once a place fits, only those that look nearly as good can be rivals.
      if (known || (settled.some((one) => fits(one) && isTold(one)) && score < likely[0]!.score - RIVAL)) continue;
      settled.push(settlePlace(placed, { ...next, part: next.fine.part }, next.detail, place));
    }
    const fitting = settled.filter((one) => fits(one) && isTold(one)).toSorted((a, b) => b.share - a.share);
    const one = fitting[0];
    if (
      one !== undefined &&
      fitting.some(({ place, share }) => share > RIVALS_SHARE * one.share && !isSamePlace(place, one.place, next, SAME))
    ) {
      throw new StaywrightError('input', `${quoted(names)} fit together in more than one place`, {
        hint: 'draw two crosses, far apart, where they overlap, and scan again',
      });
    }
    if (one !== undefined) return one;
    best = [...(best ? [best] : []), ...settled].toSorted((a, b) => b.share - a.share)[0];
  }
  if (best !== undefined && best.share > SHARE / 2 && isTold(best)) {
    throw new StaywrightError('input', `what ${quoted(names)} share does not fit together`, {
      hint: 'scan all parts with the same settings and the paper flat, and let them overlap by more',
    });
  }
  throw tooLittle(names);
};

/** Whether the shared ink says where the scan lies, along every way and at its far end. */
const isTold = ({ told, doubt }: SettledPlace): boolean => told >= TOLD && doubt < DOUBT;

const fits = ({ share, misfit }: SettledPlace): boolean => share > SHARE && misfit < MISFIT;

/** Whether two places of a scan are one: no corner of it is farther off than `within` millimetres. */
const isSamePlace = (a: Matrix, b: Matrix, { picture, toMm }: ScanToJoin, within: number): boolean => {
  const [one, other] = [compose(a, toMm), compose(b, toMm)];
  return [0, picture.width].every((x) =>
    [0, picture.height].every(
      (y) =>
        Math.hypot(
          (one.a - other.a) * x + (one.c - other.c) * y + one.e - other.e,
          (one.b - other.b) * x + (one.d - other.d) * y + one.f - other.f,
        ) < within,
    ),
  );
};

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
