/** Where the slashes of a panel lie: their mouths on the edge that opens and their feet, about which the parts turn. */

import { locationAtLength, pathLength } from '../../geometry/arc-length.ts';
import { isInside } from '../../geometry/area.ts';
import { pointOn } from '../../geometry/evaluate.ts';
import { crossHorizontal, intersectPaths } from '../../geometry/intersect.ts';
import type { Location, Path } from '../../geometry/path.ts';
import { between, distance, type Point } from '../../geometry/point.ts';
import { reversePath } from '../../geometry/reverse-path.ts';
import { line } from '../../geometry/segment.ts';
import { CRUMB } from '../../geometry/tolerance.ts';
import { StaywrightError } from '../../errors.ts';
import { formatLength } from '../../pattern/format-length.ts';
import type { PanelSides } from '../../pattern/look-up.ts';
import type { Panel } from '../../pattern/panel.ts';
import type { Units } from '../../pattern/pattern.ts';
import { outlineOf } from '../../pattern/outline.ts';
import type { SlashPlan } from './plan-slash.ts';

/** A place on an edge that a slash crosses. */
export interface SlashEnd {
  readonly location: Location;
  readonly point: Point;
}

export interface SlashLine {
  readonly mouth: SlashEnd;
  /** The other end: on the opposite edge, where the slash goes right through, else a point on the level. */
  readonly foot: Point;
  readonly footOn?: Location;
}

/** A slash shorter than this cannot be opened with scissors and tape. */
const SHORTEST_SLASH = 10;

/** The path of an edge from the first part to the last: front to back, or top to bottom. */
export const alongParts = (sides: PanelSides, place: keyof PanelSides): Path =>
  place === 'top' || place === 'back' ? sides[place].path : reversePath(sides[place].path);

const endAt = (path: Path, location: Location): SlashEnd => ({
  location,
  point: pointOn(path.segments[location.segment]!, location.t),
});

/** Whether the straight line between two points lies inside a closed outline, its ends apart. */
const isClear = (outline: Path, a: Point, b: Point): boolean =>
  isInside(outline, between(a, b, 1 / 2)) &&
  intersectPaths({ segments: [line(a, b)] }, outline).every(
    ({ point }) => Math.min(distance(point, a), distance(point, b)) < CRUMB,
  );

/**
 * From top or bottom: both ends at equal shares, so that the slashes follow the shape of the panel. How they bend between their ends
 * makes no difference to parts that move as one piece each.
 */
const downwards = (sides: PanelSides, plan: SlashPlan): SlashLine[] => {
  const from = alongParts(sides, plan.from);
  const opposite = alongParts(sides, plan.opposite);
  const [length, width] = [pathLength(from), pathLength(opposite)];
  return Array.from({ length: plan.count }, (_, i) => {
    const share = (i + 1) / (plan.count + 1);
    const mouth = endAt(from, locationAtLength(from, length * share));
    if (plan.seamEnds) {
      const [front, back] = plan.seamEnds;
      return { mouth, foot: between(front.point, back.point, share) };
    }
    const foot = endAt(opposite, locationAtLength(opposite, width * share));
    return { mouth, foot: foot.point, footOn: foot.location };
  });
};

/** From a seam: level lines; where a seam passes the level several times, between two crossings that see each other. */
const across = (panel: Panel, sides: PanelSides, plan: SlashPlan): SlashLine[] => {
  const outline = outlineOf(panel);
  const from = alongParts(sides, plan.from);
  const opposite = alongParts(sides, plan.opposite);
  return plan.heights.map((y) => {
    const feet = crossHorizontal(opposite, y);
    for (const mouth of crossHorizontal(from, y)) {
      const foot = feet.find((tried) => isClear(outline, mouth.point, tried.point));
      if (foot) return { mouth, foot: foot.point, footOn: foot.location };
    }
    throw new StaywrightError('impossible', `a slash from ${sides[plan.from].name} would leave the panel`, {
      where: `panel ${panel.name}`,
      hint: 'say with --level where the panel is whole from seam to seam',
    });
  });
};

/**
 * The slashes in order, from front to back or from top to bottom.
 *
 * @throws impossible where one would leave the panel or be under 10 mm long.
 */
export const slashLines = (panel: Panel, sides: PanelSides, plan: SlashPlan, units: Units): SlashLine[] => {
  const lines = plan.way === 'down' ? downwards(sides, plan) : across(panel, sides, plan);
  for (const { mouth, foot } of lines) {
    if (distance(mouth.point, foot) < SHORTEST_SLASH) {
      throw new StaywrightError('impossible', `a slash would be under ${formatLength(SHORTEST_SLASH, units)} long`, {
        where: `panel ${panel.name}`,
        hint: 'give a --hinge farther from the edge that opens',
      });
    }
  }
  return lines;
};
