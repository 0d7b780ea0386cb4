/**
 * Where a scan lies on those before it. The likeliest places are searched for at a small size and climbed to at larger ones; the ink at
 * full resolution then says which of them is true, or that none is, or more than one.
 */
import { StaywrightError } from '../../errors.ts';
import { compose, translation, type Matrix } from '../../geometry/matrix.ts';
import { climbPlace, likenessAt } from './climb-place.ts';
import { coarser, detailMap, reduceLight, type DetailMap } from './detail-map.ts';
import type { ScanDetail } from './laid-map.ts';
import { finenessOf, type PlacedScan, type ScanToJoin } from './scan-to-join.ts';
import { foremost, searchPlaces, WAYS } from './search-places.ts';
import { settlePlace, type SettledPlace } from './settle-place.ts';
import { sheetPart, withinPart } from './sheet-part.ts';

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

/** A scan with its detail at three sizes, each half to a fifth of the one before, and the part of it that shows the sheet. */
export interface Prepared extends ScanToJoin {
  readonly fine: ScanDetail;
  readonly rough: ScanDetail;
  readonly coarse: ScanDetail;
  readonly detail: DetailMap;
}

/** Makes a scan ready for the search. */
export const prepare = (scan: ScanToJoin): Prepared => {
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

/** Names as they stand in a sentence. */
export const quoted = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;

const tooLittle = (names: readonly string[]): StaywrightError =>
  new StaywrightError('input', `${quoted(names)} share too little to be joined`, {
    hint: 'let them overlap by more, or draw two crosses, far apart, where they overlap, and scan again',
  });

/** How alike a scan is to those before it, less what may be chance in it: with little ink, much. */
const scoreOf = (before: readonly ScanDetail[], next: ScanDetail, place: Matrix): number => {
  const { likeness, ink } = likenessAt(before, next, place);
  return likeness - (2 * (1 - likeness * likeness) + 0.2) / Math.sqrt(1 + ink / 5);
};

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
export const findPlace = (
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
