import { pathLength } from '../geometry/arc-length.ts';
import type { Path } from '../geometry/path.ts';
import type { Point } from '../geometry/point.ts';
import { notchOnCutting } from '../pattern/notch-on-cutting.ts';
import { outlineOf } from '../pattern/outline.ts';
import type { Grain, Notch, Panel, Slit } from '../pattern/panel.ts';
import type { Pattern } from '../pattern/pattern.ts';
import { drawArrow } from './draw-arrow.ts';
import type { Ink } from '../ink/ink.ts';
import { BONE, CUTTING, dashedToEnds, GRAIN, HAIR, LEVEL, NOTCH, SLIT, STITCHING, WAIST } from '../ink/line-style.ts';
import type { Joints } from './page-joints.ts';
import { pointsOf } from './panel-shape.ts';
import { panelTexts } from './panel-texts.ts';
import { linesOf } from './text-block.ts';
import { closed, cornersOfSpot } from './text-spot.ts';

/** Radius of the ring round a reinforcement point, in millimetres. */
const RING = 1.5;

export interface PanelContext {
  readonly pattern: Pattern;
  readonly hash: string;
  /** Where pages meet, in the panel's own coordinates. */
  readonly joints: Joints | undefined;
}

/** What of a panel is inked: the corners of every block of words, and its lines as points. */
export interface DrawnPanel {
  readonly words: readonly (readonly Point[])[];
  readonly lines: readonly (readonly Point[])[];
}

/** Draws a panel with its marks and words, in its own coordinates; gives back what was inked. */
export const drawPanel = (ink: Ink, panel: Panel, { pattern, hash, joints }: PanelContext): DrawnPanel => {
  const outline = pointsOf(outlineOf(panel));
  const notches = panel.notches.map((notch) => notchLine(notch, panel.cutting));
  const { slits = [] } = panel;
  const marks = [
    ...panel.levels.map(({ fromX, toX, y }) => [
      { x: fromX, y },
      { x: toX, y },
    ]),
    ...notches,
    ...panel.bones.map(pointsOf),
    ...slits.map(({ at, to }) => [at, to]),
    ...(panel.grain ? [[panel.grain.from, panel.grain.to]] : []),
  ];
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
  for (const slit of slits) drawSlit(ink, slit);
  if (panel.grain) drawGrain(ink, panel.grain);
  const blocks = panelTexts({ pattern, panel, outline, lines: marks, joints, hash });
  for (const { text, at, size, angle, weight } of blocks.flatMap(linesOf)) {
    ink.text(text, at, { size, angle, weight, align: 'middle' });
  }
  return { words: blocks.map(({ spot }) => cornersOfSpot(spot)), lines: [closed(outline), ...marks] };
};

/** A cutting line as one unbroken outline; a stitching line edge by edge, so that a dash meets a dash at every corner. */
const drawOutline = (ink: Ink, panel: Panel): void => {
  if (panel.line === 'cutting') ink.strokePath(outlineOf(panel), CUTTING);
  else for (const { path } of panel.edges) ink.strokePath(path, dashedToEnds(STITCHING, pathLength(path)));
};

/** From inside the stitching line out to the cutting line, where there is one: the notch is snipped there. */
const notchLine = (notch: Notch, cutting: Path | undefined): Point[] => [
  notch.inner,
  (cutting && notchOnCutting(notch, cutting)) ?? notch.at,
];

/** A ring round the point that is reinforced. */
const drawSlit = (ink: Ink, { at, to }: Slit): void => {
  ink.strokeLine([at, to], SLIT);
  ink.strokeCircle(at, RING, HAIR);
};

const drawGrain = (ink: Ink, { from, to }: Grain): void => {
  ink.strokeLine([from, to], GRAIN);
  drawArrow(ink, from, to);
  drawArrow(ink, to, from);
};
