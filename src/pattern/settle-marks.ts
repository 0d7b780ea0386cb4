/** Bringing the marks of a panel along after some of its edges were changed. */

import { lengthTo, locationAtLength, pathLength } from '../geometry/arc-length.ts';
import { pointOn, tangentOn } from '../geometry/evaluate.ts';
import { crossHorizontal } from '../geometry/intersect.ts';
import { nearestPoint } from '../geometry/nearest-point.ts';
import { pathEnd, pathStart, type Location, type Path } from '../geometry/path.ts';
import { movePoint } from '../geometry/point.ts';
import { SAME_POINT } from '../geometry/tolerance.ts';
import { dot, leftNormal, plus, scaled, vectorTo } from '../geometry/vector.ts';
import { chordAt } from './chord.ts';
import { findLevel, seamSidesOf } from './look-up.ts';
import { straightDown } from './opening.ts';
import type { Edge, Level, Notch, Panel, Slit } from './panel.ts';

/** How far along an edge the waist lies; the edge's upper end where it does not cross the waist, as on a gusset, whose apex that is. */
const waistAlong = (path: Path, waistY: number | undefined): number => {
  const crossing = waistY === undefined ? undefined : crossHorizontal(path, waistY)[0];
  if (crossing) return lengthTo(path, crossing.location);
  return pathStart(path).y <= pathEnd(path).y ? 0 : pathLength(path);
};

/** The notch at another place of a changed edge: turned with the edge, so that one drawn along the normal stays so. */
export const carryNotch = (notch: Notch, before: Path, from: Location, after: Path, to: Location): Notch => {
  const old = tangentOn(before.segments[from.segment]!, from.t);
  const now = tangentOn(after.segments[to.segment]!, to.t);
  const mark = vectorTo(notch.at, notch.inner);
  const turned = plus(scaled(now, dot(mark, old)), scaled(leftNormal(now), dot(mark, leftNormal(old))));
  const at = pointOn(after.segments[to.segment]!, to.t);
  return { edge: notch.edge, at, inner: movePoint(at, turned) };
};

/** Where the waist lies on a panel before and after it was altered. */
interface Waists {
  readonly before: number | undefined;
  readonly after: number | undefined;
}

/** A notch on a seam keeps its distance along the edge from the waist; past the edge's end it stops there. */
const settleSeamNotch = (notch: Notch, before: Path, after: Path, waists: Waists): Notch => {
  const from = nearestPoint(before, notch.at).location;
  const fromWaist = lengthTo(before, from) - waistAlong(before, waists.before);
  const along = waistAlong(after, waists.after) + fromWaist;
  return carryNotch(
    notch,
    before,
    from,
    after,
    locationAtLength(after, Math.min(Math.max(along, 0), pathLength(after))),
  );
};

/** A notch on a top or bottom edge stays where it is, as long as the edge still runs there; else it goes to the edge's nearest place. */
const settleOtherNotch = (notch: Notch, before: Path, after: Path): Notch => {
  const now = nearestPoint(after, notch.at);
  if (now.distance < nearestPoint(before, notch.at).distance + SAME_POINT) return notch;
  return carryNotch(notch, before, nearestPoint(before, notch.at).location, after, now.location);
};

/** A slit keeps its point and ends on the bottom edge again, straight below; past the ends of that edge it stays as it was. */
const settleSlit = (slit: Slit, bottom: Path): Slit => {
  const to = straightDown(slit.at, bottom);
  return to ? { ...slit, to } : slit;
};

const settleLevel = (level: Level, panel: Panel): Level => {
  const chord = chordAt(panel, level.y);
  return chord ? { ...level, fromX: chord.fromX, toX: chord.toX } : level;
};

/**
 * `after` (a panel some of whose edges differ from `before`) with its marks settled: notches that are still the old ones keep, on a
 * seam, their distance along it from the waist, wherever that lies now, levels reach from edge to edge, the grainline stays. Marks of unchanged edges are
 * the very same objects. The points of open seams go as notches do, slits end on the bottom edge again. A level that an edge no longer reaches is left as it is: refusing that is the caller's part.
 * `redrawCutting` draws the cutting line again where there was one; without it that line, no longer true, is left off.
 */
export const settleMarks = (before: Panel, after: Panel, redrawCutting?: (panel: Panel) => Panel): Panel => {
  const waists: Waists = { before: findLevel(before, 'waist')?.y, after: findLevel(after, 'waist')?.y };
  const sides = seamSidesOf(after);
  const changed = new Map<string, { readonly old: Edge; readonly now: Edge }>();
  for (const [index, now] of after.edges.entries()) {
    const old = before.edges[index]!;
    if (old.path !== now.path) changed.set(now.name, { old, now });
  }
  if (changed.size === 0) return after;
  const isSeam = (edge: Edge): boolean => edge === sides?.front || edge === sides?.back;
  const settleNotch = (notch: Notch, index: number): Notch => {
    const edges = changed.get(notch.edge);
    if (!edges || notch !== before.notches[index]) return notch;
    return isSeam(edges.now)
      ? settleSeamNotch(notch, edges.old.path, edges.now.path, waists)
      : settleOtherNotch(notch, edges.old.path, edges.now.path);
  };
  const settleOpening = (slit: Slit, index: number): Slit => {
    const edges = changed.get(slit.edge ?? 'bottom');
    if (!edges || slit !== before.slits?.[index]) return slit;
    if (slit.edge === undefined) return settleSlit(slit, edges.now.path);
    const mark = { edge: slit.edge, at: slit.at, inner: slit.to };
    const { at, inner } = settleSeamNotch(mark, edges.old.path, edges.now.path, waists);
    return { ...slit, at, to: inner };
  };
  const seamChanged = [...changed.values()].some(({ now }) => isSeam(now));
  const { cutting, ...uncut } = after;
  const settled: Panel = {
    ...uncut,
    notches: after.notches.map(settleNotch),
    ...(after.slits ? { slits: after.slits.map(settleOpening) } : {}),
    levels: seamChanged ? after.levels.map((level) => settleLevel(level, after)) : after.levels,
  };
  return cutting && redrawCutting ? redrawCutting({ ...settled, cutting }) : settled;
};
