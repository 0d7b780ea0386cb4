/** The marks of a slashed panel that go with its parts: notches on crossed edges, levels across, the grainline. */

import { isInside } from '../../geometry/area.ts';
import { lengthTo } from '../../geometry/arc-length.ts';
import { nearestPoint } from '../../geometry/nearest-point.ts';
import type { Location } from '../../geometry/path.ts';
import { movePoint, between, point, type Point } from '../../geometry/point.ts';
import { SAME_POINT } from '../../geometry/tolerance.ts';
import { transformPoint } from '../../geometry/transform-path.ts';
import { vectorTo } from '../../geometry/vector.ts';
import { edgeNamed, findLevel, sidesOf, type PanelSides } from '../../pattern/look-up.ts';
import { outlineOf } from '../../pattern/outline.ts';
import type { Grain, Level, Notch, Panel } from '../../pattern/panel.ts';
import type { SlashPlan } from './plan-slash.ts';
import { alongParts, type SlashLine } from './slash-lines.ts';
import type { PartMotion } from './turn-parts.ts';

type Place = keyof PanelSides;

/** The parts, by number, that an edge belongs to: given by where a point lies among the slashes that cross it. */
const partOn = (sides: PanelSides, place: Place, at: Point, plan: SlashPlan, lines: readonly SlashLine[]): number => {
  if (place === plan.first) return 0;
  if (place === plan.last) return lines.length;
  const path = alongParts(sides, place);
  const along = lengthTo(path, nearestPoint(path, at).location);
  const cutAt = ({ mouth, footOn }: SlashLine): Location => (place === plan.from ? mouth.location : footOn!);
  return lines.filter((line) => lengthTo(path, cutAt(line)) < along).length;
};

/** Whether the marks on an edge are carried by its parts; the others are settled by their distance from the waist. */
const goesWithParts = (place: Place, plan: SlashPlan): boolean =>
  plan.way === 'across' || place === plan.from || (place === plan.opposite && plan.seamEnds === undefined);

const carried = (notch: Notch, after: Panel, motion: PartMotion): Notch => {
  const [at, inner] = [transformPoint(notch.at, motion.matrix), transformPoint(notch.inner, motion.matrix)];
  const on = nearestPoint(edgeNamed(after, notch.edge).path, at).point;
  return { edge: notch.edge, at: on, inner: movePoint(inner, vectorTo(at, on)) };
};

/** A level stays level, through where the middle of its line went; one along a slash goes with the part towards the waist. */
const movedLevel = (level: Level, waistY: number, plan: SlashPlan, motions: readonly PartMotion[]): Level => {
  const middle = point((level.fromX + level.toX) / 2, level.y);
  const above = plan.heights.filter((y) => y < level.y - SAME_POINT).length;
  const upTo = plan.heights.filter((y) => y <= level.y + SAME_POINT).length;
  const parts = level.y === waistY ? [above, upTo] : level.y > waistY ? [above, above] : [upTo, upTo];
  const [one, other] = parts.map((part) => transformPoint(middle, motions[part]!.matrix));
  return { ...level, y: between(one!, other!, 1 / 2).y };
};

/** The grainline stays, on the part that keeps it; one that lay on a part that left goes along, still upright. */
const settleGrain = (grain: Grain, before: Panel, after: Panel, motions: readonly PartMotion[]): Grain => {
  const outline = outlineOf(after);
  const fits = ({ from, to }: Grain): boolean => isInside(outline, from) && isInside(outline, to);
  const was = outlineOf(before);
  if (fits(grain) || !isInside(was, grain.from) || !isInside(was, grain.to)) return grain;
  const middle = between(grain.from, grain.to, 1 / 2);
  const moved = motions.map(({ matrix }): Grain => {
    const by = vectorTo(middle, transformPoint(middle, matrix));
    return { from: movePoint(grain.from, by), to: movePoint(grain.to, by) };
  });
  return moved.find(fits) ?? grain;
};

/** `after`, its edges new, with the marks in place that go with the parts; or why a level could not stay between its neighbours. */
export const moveMarks = (
  before: Panel,
  after: Panel,
  plan: SlashPlan,
  lines: readonly SlashLine[],
  motions: readonly PartMotion[],
): Panel | string => {
  const sides = sidesOf(before)!;
  const notches = after.notches.map((notch): Notch => {
    const place = (['top', 'back', 'bottom', 'front'] as const).find((each) => sides[each].name === notch.edge);
    if (!place || !goesWithParts(place, plan)) return notch;
    const same = edgeNamed(after, notch.edge).path === sides[place].path;
    return same ? notch : carried(notch, after, motions[partOn(sides, place, notch.at, plan, lines)]!);
  });
  const waistY = findLevel(before, 'waist')?.y ?? 0;
  const levels =
    plan.way === 'down' ? after.levels : after.levels.map((level) => movedLevel(level, waistY, plan, motions));
  const lost = levels.find((level, i) => i > 0 && level.y <= levels[i - 1]!.y);
  if (lost) return `would lose its level ${lost.name}`;
  const moved = { ...after, notches, levels };
  return after.grain ? { ...moved, grain: settleGrain(after.grain, before, after, motions) } : moved;
};
