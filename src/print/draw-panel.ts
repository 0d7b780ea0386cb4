import { pathLength } from '../geometry/arc-length.ts';
import { distance, movePoint, type Point } from '../geometry/point.ts';
import { scaled, unit, vectorTo } from '../geometry/vector.ts';
import { outlineOf } from '../pattern/outline.ts';
import type { Grain, Notch, Panel } from '../pattern/panel.ts';
import type { Pattern } from '../pattern/pattern.ts';
import { drawArrow } from './draw-arrow.ts';
import { grainLine } from './grain-line.ts';
import type { Ink } from './ink.ts';
import { BONE, CUTTING, dashedToEnds, GRAIN, LEVEL, NOTCH, STITCHING, WAIST } from './line-style.ts';
import { pointsOf } from './panel-shape.ts';
import { panelTexts } from './panel-texts.ts';
import { linesOf } from './text-block.ts';
import { cornersOfSpot } from './text-spot.ts';

export interface PanelContext {
  readonly pattern: Pattern;
  readonly hash: string;
  /** Where pages meet, in the panel's own coordinates. */
  readonly joints: readonly (readonly Point[])[];
}

/** Draws a panel with its marks and words, in its own coordinates; gives back the corners of every block of words. */
export const drawPanel = (ink: Ink, panel: Panel, { pattern, hash, joints }: PanelContext): Point[][] => {
  const outline = pointsOf(outlineOf(panel));
  const cutting = panel.cutting && pointsOf(panel.cutting);
  const notches = panel.notches.map((notch) => notchLine(notch, cutting));
  const marks = [
    ...panel.levels.map(({ fromX, toX, y }) => [
      { x: fromX, y },
      { x: toX, y },
    ]),
    ...notches,
    ...panel.bones.map(pointsOf),
  ];
  const grain = grainLine(panel, outline, [[...outline, outline[0]!], ...marks]);
  if (panel.cutting) ink.strokePath(panel.cutting, CUTTING);
  drawOutline(ink, panel);
  for (const level of panel.levels) {
    ink.strokeLine(
      [
        { x: level.fromX, y: level.y },
        { x: level.toX, y: level.y },
      ],
      level.name === 'waist' ? WAIST : LEVEL,
    );
  }
  for (const bone of panel.bones) ink.strokePath(bone, BONE);
  for (const notch of notches) ink.strokeLine(notch, NOTCH);
  if (grain) drawGrain(ink, grain);
  const lines = grain ? [...marks, [grain.from, grain.to]] : marks;
  const blocks = panelTexts({ pattern, panel, outline, lines, joints, hash });
  for (const { text, at, size, angle, weight } of blocks.flatMap(linesOf)) {
    ink.text(text, at, { size, angle, weight, align: 'middle' });
  }
  return blocks.map(({ spot }) => cornersOfSpot(spot));
};

/** A cutting line as one unbroken outline; a stitching line edge by edge, so that a dash meets a dash at every corner. */
const drawOutline = (ink: Ink, panel: Panel): void => {
  if (panel.line === 'cutting') ink.strokePath(outlineOf(panel), CUTTING);
  else for (const { path } of panel.edges) ink.strokePath(path, dashedToEnds(STITCHING, pathLength(path)));
};

/** From inside the stitching line out to the cutting line, where there is one: the notch is snipped there. */
const notchLine = ({ at, inner }: Notch, cutting: readonly Point[] | undefined): Point[] => {
  const out = unit(vectorTo(inner, at));
  const reach = cutting ? firstCrossing(at, movePoint(at, scaled(out, 60)), cutting) : undefined;
  return [inner, reach ?? at];
};

const firstCrossing = (from: Point, to: Point, polygon: readonly Point[]): Point | undefined => {
  const crossings = polygon.flatMap((a, index) => {
    const b = polygon[(index + 1) % polygon.length]!;
    const [d, e] = [vectorTo(from, to), vectorTo(a, b)];
    const across = d.dx * e.dy - d.dy * e.dx;
    if (across === 0) return [];
    const f = vectorTo(from, a);
    const t = (f.dx * e.dy - f.dy * e.dx) / across;
    const u = (f.dx * d.dy - f.dy * d.dx) / across;
    return t >= 0 && t <= 1 && u >= 0 && u <= 1 ? [movePoint(from, scaled(d, t))] : [];
  });
  return crossings.toSorted((p, q) => distance(from, p) - distance(from, q))[0];
};

const drawGrain = (ink: Ink, { from, to }: Grain): void => {
  ink.strokeLine([from, to], GRAIN);
  drawArrow(ink, from, to);
  drawArrow(ink, to, from);
};
