/** Where a gusset is set in: the openings in the panels beside it, before they are cut. */

import { lengthTo, locationAtLength, pathLength } from '../../geometry/arc-length.ts';
import { pointOn, tangentOn } from '../../geometry/evaluate.ts';
import { pathBox } from '../../geometry/box.ts';
import { crossHorizontal, intersectPaths } from '../../geometry/intersect.ts';
import { nearestPoint } from '../../geometry/nearest-point.ts';
import { pathEnd, type Location, type Path } from '../../geometry/path.ts';
import { movePoint, point, type Point } from '../../geometry/point.ts';
import { line } from '../../geometry/segment.ts';
import { subPath } from '../../geometry/sub-path.ts';
import { STUB } from '../../geometry/tolerance.ts';
import { leftNormal, scaled } from '../../geometry/vector.ts';
import { StaywrightError } from '../../errors.ts';
import { chordAt } from '../../pattern/chord.ts';
import { formatLength } from '../../pattern/format-length.ts';
import type { LevelRef } from '../../pattern/level-ref.ts';
import { levelY } from '../../pattern/level-y.ts';
import {
  bottomEdge,
  panelNamed,
  seamNamed,
  seamWords,
  sewnSeams,
  type SeamEdge,
  type SewnSeam,
} from '../../pattern/look-up.ts';
import { downwards, straightDown } from '../../pattern/opening.ts';
import type { Panel, Side, Slit } from '../../pattern/panel.ts';
import type { Pattern, Units } from '../../pattern/pattern.ts';
import type { GussetPlace } from '../gusset-options.ts';

/** One side of an opening. */
export interface Opening {
  readonly panel: Panel;
  readonly slit: Omit<Slit, 'gusset'>;
  /** From the reinforcement point down to the bottom edge. */
  readonly path: Path;
  readonly length: number;
}

/** What one gusset is sewn to: its front side to `front`, its back side to `back`; one and the same for a slit. */
export interface GussetSpot {
  readonly front: Opening;
  readonly back: Opening;
  readonly side?: Side;
}

/** Shorter than this an opening cannot be sewn, and nearer than this two slits are one. */
const SHORTEST = 10;
const NEAREST = 10;

/** How long the bar across a seam at its reinforcement point is drawn. */
const BAR = 4;

/** A typed length that differs by more from the opening that a typed level makes contradicts it. */
const SAME_LENGTH = 0.01;

const refuse = (code: 'usage' | 'impossible', message: string, where: string, hint?: string): never => {
  throw new StaywrightError(code, message, { where, ...(hint === undefined ? {} : { hint }) });
};

const openingOf = (panel: Panel, slit: Opening['slit'], path: Path): Opening => ({
  panel,
  slit,
  path,
  length: pathLength(path),
});

/** Where along a seam edge, taken from its upper end down, it is to open. */
const seamStart = (
  panel: Panel,
  path: Path,
  { seam, below, length }: GussetPlace & { kind: 'seam' },
  units: Units,
): Location => {
  if (below === undefined) {
    const whole = pathLength(path);
    if (length! < whole) return locationAtLength(path, whole - length!);
    const [typed, is] = [length!, whole].map((mm) => formatLength(mm, units));
    const hint = 'a gusset ends below the top of its seam: give a shorter --length';
    return refuse('impossible', `${typed} is longer than seam ${seam} on panel ${panel.name}, ${is}`, '--length', hint);
  }
  const y = levelY(panel, below);
  const [crossing] = crossHorizontal(path, y);
  if (crossing && lengthTo(path, crossing.location) > STUB) return crossing.location;
  const lies = y > pathEnd(path).y ? 'lies below the bottom' : 'does not lie below the top';
  const hint = 'choose a level on the seam, such as waist-1in';
  return refuse('impossible', `${lies} of seam ${seam} on panel ${panel.name}`, `level ${below.text}`, hint);
};

const seamOpening = ({ panel, edge }: SeamEdge, place: GussetPlace & { kind: 'seam' }, units: Units): Opening => {
  const taken = panel.slits?.find((slit) => slit.edge === edge.name);
  if (taken) {
    const hint = `--name ${taken.gusset} takes that one out first`;
    refuse('usage', `already holds the gusset ${taken.gusset} on panel ${panel.name}`, `seam ${edge.name}`, hint);
  }
  const path = downwards(edge.path);
  const start = seamStart(panel, path, place, units);
  const at = pointOn(path.segments[start.segment]!, start.t);
  const { location } = nearestPoint(edge.path, at);
  const inwards = scaled(leftNormal(tangentOn(edge.path.segments[location.segment]!, location.t)), -BAR);
  const rest = subPath(path, start, { segment: path.segments.length - 1, t: 1 });
  return openingOf(panel, { edge: edge.name, at, to: movePoint(at, inwards) }, rest);
};

const slitTop = (panel: Panel, place: GussetPlace & { kind: 'slit' }): Point => {
  const { level, fraction, length } = place;
  const y = levelY(panel, level);
  const chord = chordAt(panel, y);
  if (!chord) {
    const hint = 'choose a level between its top and its bottom';
    return refuse('impossible', `is not reached by both seams of panel ${panel.name}`, `level ${level.text}`, hint);
  }
  const x = chord.fromX + fraction * (chord.toX - chord.fromX);
  if (level.name !== 'bottom' || length === undefined) return point(x, y);
  const bottom = bottomEdge(panel).path;
  const end = straightDown(point(x, pathBox(bottom).minY - 1), bottom);
  return point(x, (end?.y ?? y) - length);
};

const panelSlit = (panel: Panel, place: GussetPlace & { kind: 'slit' }): Opening => {
  const where = `panel ${panel.name}`;
  if (panel.gusset) refuse('usage', 'is a gusset itself', where, 'slit another panel');
  const bottom = bottomEdge(panel);
  const at = slitTop(panel, place);
  const to = straightDown(at, bottom.path);
  if (!to)
    return refuse(
      'impossible',
      'a slit straight down from there misses its bottom edge',
      where,
      'choose another fraction',
    );
  const path: Path = { segments: [line(at, to)] };
  const through = panel.edges.find((edge) => edge !== bottom && intersectPaths(path, edge.path).length > 0);
  if (through) {
    refuse(
      'impossible',
      `the slit would leave it through edge ${through.name}`,
      where,
      'choose another fraction or level',
    );
  }
  const near = panel.slits?.find((slit) => slit.edge === undefined && Math.abs(slit.at.x - at.x) < NEAREST);
  if (near) {
    const hint = `--name ${near.gusset} takes that one out first`;
    refuse('usage', `the slit would run into that of the gusset ${near.gusset}`, where, hint);
  }
  return openingOf(panel, { at, to }, path);
};

const seamSpot = (seam: SewnSeam, place: GussetPlace & { kind: 'seam' }, units: Units): GussetSpot => {
  const [one, other, more] = seam.edges;
  const front = seam.edges.find(({ side }) => side === 'back');
  const back = seam.edges.find(({ side }) => side === 'front');
  if (!one || !other || more || !front || !back) {
    const hint = 'a gusset goes between two edges that are sewn together; or slit a panel: --panel P --slit waist:0.5';
    return refuse('usage', 'is not a seam of two edges, one of each panel', `seam ${seamWords(seam)}`, hint);
  }
  return {
    front: seamOpening(front, place, units),
    back: seamOpening(back, place, units),
    ...(seam.side === undefined ? {} : { side: seam.side }),
  };
};

const checkLengths = (
  { front, back }: GussetSpot,
  level: LevelRef | undefined,
  length: number | undefined,
  units: Units,
): void => {
  const openings = front === back ? [front] : [front, back];
  const short = openings.find((opening) => opening.length < SHORTEST);
  if (short) {
    const [is, least] = [short.length, SHORTEST].map((mm) => formatLength(mm, units));
    refuse('impossible', `the opening is only ${is} long`, `panel ${short.panel.name}`, `it must be ${least} or more`);
  }
  if (length === undefined || level === undefined || openings.every((o) => Math.abs(o.length - length) <= SAME_LENGTH))
    return;
  const words = openings.map((o) => `${formatLength(o.length, units)} on ${o.panel.name}`).join(' and ');
  refuse('usage', `from ${level.text} down the opening is ${words}`, '--length', 'leave out --length, or the level');
};

/**
 * The openings of each gusset that is asked for: one, or one on each side where left and right are separate panels.
 *
 * @throws usage for unknown names, a seam that is not sewn, an opening that is there already, a length that contradicts the level;
 * impossible where the opening would leave the panel, miss it or be under 10 mm long.
 */
export const gussetSpots = (pattern: Pattern, place: GussetPlace): readonly GussetSpot[] => {
  if (place.kind === 'slit') {
    const panel = panelNamed(pattern, place.panel);
    const opening = panelSlit(panel, place);
    const spot = { front: opening, back: opening, ...(panel.side === undefined ? {} : { side: panel.side }) };
    checkLengths(spot, place.level.name === 'bottom' ? undefined : place.level, place.length, pattern.units);
    return [spot];
  }
  const { name } = seamNamed(pattern, place.seam);
  const spots = sewnSeams(pattern)
    .filter((seam) => seam.name === name)
    .map((seam) => seamSpot(seam, place, pattern.units));
  for (const spot of spots) checkLengths(spot, place.below, place.length, pattern.units);
  return spots;
};
