/** The panel of a gusset: its outline with the levels, the notches, the grain and the allowance of what it is sewn to. */

import { lengthTo, locationAtLength, pathLength } from '../../geometry/arc-length.ts';
import { pointOn, tangentOn } from '../../geometry/evaluate.ts';
import { crossHorizontal } from '../../geometry/intersect.ts';
import { nearestPoint } from '../../geometry/nearest-point.ts';
import { pathEnd, type Path } from '../../geometry/path.ts';
import { distance, movePoint, point } from '../../geometry/point.ts';
import { STUB } from '../../geometry/tolerance.ts';
import { leftNormal, scaled } from '../../geometry/vector.ts';
import { chordAt } from '../../pattern/chord.ts';
import { bottomEdge, findLevel, levelNames, waistOf } from '../../pattern/look-up.ts';
import { downwards } from '../../pattern/opening.ts';
import type { Edge, Level, Notch, Panel } from '../../pattern/panel.ts';
import type { Pattern } from '../../pattern/pattern.ts';
import type { GussetSpot, Opening } from './gusset-openings.ts';
import type { GussetShape } from './gusset-shape.ts';

/** From the apex to the two ends of its grainline, as shares of the gusset's height: low down, as its name stands above. */
const GRAIN_FROM = 0.55;
const GRAIN_TO = 0.9;

/** How long a notch is drawn where its mate does not say. */
const NOTCH = 6;

/** Near the apex a notch is drawn no longer than this share of the way to the other side. */
const NOTCH_SHARE = 1 / 3;

/** How far down an opening a level crosses it; undefined where it lies at or above the reinforcement point. */
const depthOf = ({ panel, path }: Opening, name: string): number | undefined => {
  const level = findLevel(panel, name);
  const crossing = level && crossHorizontal(path, level.y)[0];
  if (!crossing) return undefined;
  const depth = lengthTo(path, crossing.location);
  return depth > STUB ? depth : undefined;
};

const heightAt = (side: Path, depth: number): number => {
  const path = downwards(side);
  const { segment, t } = locationAtLength(path, depth);
  return pointOn(path.segments[segment]!, t).y;
};

/** The levels below the apex, each at the mean of the heights at which its crossings of the two openings come to lie. */
const levelsOf = (pattern: Pattern, bare: Panel, { front, back }: GussetSpot, shape: GussetShape): Level[] =>
  levelNames(pattern).flatMap((name): Level[] => {
    const [onFront, onBack] = [depthOf(front, name), depthOf(back, name)];
    if (onFront === undefined || onBack === undefined) return [];
    const y = (heightAt(shape.front, onFront) + heightAt(shape.back, onBack)) / 2;
    const chord = chordAt(bare, y);
    return chord && chord.width > STUB ? [{ name, y, fromX: chord.fromX, toX: chord.toX }] : [];
  });

/** A notch to mark on a seam: how far below the reinforcement point, and how long it is drawn. */
export interface NotchBelow {
  readonly depth: number;
  readonly length: number;
}

/** The notches of an opened edge below its reinforcement point. */
export const notchesBelow = ({ panel, slit, path }: Opening): NotchBelow[] =>
  panel.notches
    .filter(({ edge }) => edge === slit.edge)
    .map(({ at, inner }) => {
      const near = nearestPoint(path, at);
      return { depth: near.distance > STUB ? 0 : lengthTo(path, near.location), length: distance(at, inner) };
    })
    .filter(({ depth }) => depth > STUB);

/** The notch half-way down an opening, for an edge that has none there. */
export const halfWay = (path: Path): NotchBelow => ({ depth: pathLength(path) / 2, length: NOTCH });

/** A notch on an edge, so far down from the upper end of `path`, which is the edge or a part of it. */
export const notchAt = (edge: Edge, path: Path, { depth, length }: NotchBelow): Notch => {
  const { segment, t } = locationAtLength(path, depth);
  const at = pointOn(path.segments[segment]!, t);
  const { location } = nearestPoint(edge.path, at);
  const outwards = leftNormal(tangentOn(edge.path.segments[location.segment]!, location.t));
  return { edge: edge.name, at, inner: movePoint(at, scaled(outwards, -length)) };
};

const sideNotches = (edge: Edge, opposite: Path, opening: Opening): Notch[] => {
  if (opening.slit.edge === undefined) return [];
  const path = downwards(edge.path);
  const marked = notchesBelow(opening);
  return (marked.length > 0 ? marked : [halfWay(opening.path)]).map((notch) => {
    const { at } = notchAt(edge, path, notch);
    const room = nearestPoint(opposite, at).distance * NOTCH_SHARE;
    return notchAt(edge, path, { ...notch, length: Math.min(notch.length, room) });
  });
};

/** The allowance of the edge that a side is sewn to; a slit's is that of its panel's seams, full on the gusset. */
const allowanceOf = ({ panel, slit }: Opening): Pick<Edge, 'allowance'> => {
  const seams = panel.edges.filter(({ name }) => name !== 'top' && name !== 'bottom');
  const allowance = (seams.find(({ name }) => name === slit.edge) ?? seams[0])?.allowance;
  return allowance === undefined ? {} : { allowance };
};

const finishOf = ({ panel }: Opening): Pick<Edge, 'allowance' | 'corners'> => {
  const { allowance, corners } = bottomEdge(panel);
  return { ...(allowance === undefined ? {} : { allowance }), ...(corners === undefined ? {} : { corners }) };
};

/** How far the waist lies below the reinforcement points, at their mean: a negative number where it is above them. */
const waistBelow = (openings: readonly Opening[]): number =>
  openings.reduce((sum, { panel, slit }) => sum + (waistOf(panel) ?? slit.at.y) - slit.at.y, 0) / openings.length;

/** The panel, without a cutting line; `edges` is what its two sides are called before `-front` and `-back`. */
export const gussetPanel = (
  pattern: Pattern,
  spot: GussetSpot,
  shape: GussetShape,
  { name, edges }: { readonly name: string; readonly edges: string },
): Panel => {
  const back: Edge = { name: `${edges}-back`, path: shape.back, ...allowanceOf(spot.back) };
  const front: Edge = { name: `${edges}-front`, path: shape.front, ...allowanceOf(spot.front) };
  const bare: Panel = {
    name,
    line: 'stitching',
    ...(spot.side === undefined ? {} : { side: spot.side }),
    gusset: { waistY: waistBelow([spot.front, spot.back]) },
    edges: [back, { name: 'bottom', path: shape.bottom, ...finishOf(spot.front) }, front],
    levels: [],
    notches: [...sideNotches(back, shape.front, spot.back), ...sideNotches(front, shape.back, spot.front)],
    bones: [],
  };
  const levels = levelsOf(pattern, bare, spot, shape);
  const height = Math.min(pathEnd(shape.back).y, pathEnd(shape.bottom).y);
  const waist = levels.find((level) => level.name === 'waist');
  return {
    ...bare,
    ...(waist ? { gusset: { waistY: waist.y } } : {}),
    levels,
    grain: { from: point(0, GRAIN_FROM * height), to: point(0, GRAIN_TO * height) },
  };
};
