import { joinBoxes, pathBox } from '../geometry/box.ts';
import { compose, translation, type Matrix } from '../geometry/matrix.ts';
import { pathEnd, pathStart, type Path } from '../geometry/path.ts';
import type { Point } from '../geometry/point.ts';
import { roundPath, roundPoint } from '../geometry/round-path.ts';
import { transformPath, transformPoint, translatePath } from '../geometry/transform-path.ts';
import { vector } from '../geometry/vector.ts';
import type { Artwork } from '../pattern/drawing.ts';
import type { Finding } from '../pattern/finding.ts';
import type { Grain, Notch, Panel } from '../pattern/panel.ts';
import { cutEdges } from './cut-edges.ts';
import { findCorners } from './find-corners.ts';
import type { HungPanel } from './hang-drawn-panel.ts';
import { drawArtwork, moveArtwork } from './keep-artwork.ts';
import { KNOWN_LEVELS } from './known-levels.ts';
import type { CornerName, LabelAnswers } from './label-answers.ts';
import { placeLevels } from './place-levels.ts';
import { placeNotch } from './place-notch.ts';
import { addOtherLine } from './add-other-line.ts';

export interface PanelSurroundings {
  readonly frontSeam: string;
  readonly backSeam: string;
  readonly artwork: readonly Artwork[];
  readonly marks: readonly Path[];
}

/**
 * One panel in its own coordinates, fixed here once and for all: its waist at y 0, its leftmost point at x 0, everything rounded as it
 * is written.
 */
export const labelPanel = (
  hung: HungPanel,
  around: PanelSurroundings,
  answers: LabelAnswers,
): { panel: Panel; findings: readonly Finding[] } => {
  const given = Object.fromEntries(
    answers.corners
      .filter((corner) => corner.panel === hung.name)
      .map(({ corner, at }) => [corner, transformPoint(at, hung.matrix)]),
  ) as Partial<Record<CornerName, Point>>;
  const found = findCorners(hung.outline, answers.line, given, hung.name);
  const loose = cutEdges(hung.outline, found.corners, around.backSeam, around.frontSeam);
  const waist = hung.heights.get('waist')!;
  const shift = vector(-joinBoxes(loose.map((edge) => pathBox(edge.path))).minX, -waist);
  const matrix = compose(translation(shift.dx, shift.dy), hung.matrix);
  const edges = loose.map(({ name, path }) => ({ name, path: roundPath(translatePath(path, shift)) }));
  const bare: Panel = { name: hung.name, line: answers.line, edges, levels: [], notches: [], bones: [] };
  const placed = placeLevels(bare, new Map([...hung.heights].map(([name, y]) => [name, y - waist])));
  const notches = placeNotches(bare, hung, around.marks, matrix);
  const { grain } = hung.strokes;
  const art = [
    drawArtwork([...hung.strokes.others.map((stroke) => stroke.path), ...notches.left], matrix),
    moveArtwork(around.artwork, matrix),
  ].filter((markup) => markup !== '');
  const panel: Panel = {
    ...bare,
    levels: placed.levels,
    notches: notches.notches,
    ...(grain ? { grain: placeGrain(grain.path, matrix) } : {}),
    ...(art.length > 0 ? { art: art.join('\n') } : {}),
  };
  const both = addOtherLine(panel, hung.drawn.other?.path, matrix);
  const findings = [...hung.findings, ...found.findings, ...placed.findings, ...upsideDown(panel), ...both.findings];
  return { panel: both.panel, findings };
};

/** Short lines and small closed shapes on the outline become notches; what does not is left to be drawn as it is. */
const placeNotches = (
  panel: Panel,
  hung: HungPanel,
  marks: readonly Path[],
  matrix: Matrix,
): { notches: Notch[]; left: Path[] } => {
  const notches: Notch[] = [];
  const left: Path[] = [];
  for (const stroke of hung.strokes.notches) {
    const notch = placeNotch(panel, transformPath(stroke.path, matrix));
    if (notch === undefined) left.push(stroke.path);
    else notches.push(notch);
  }
  for (const mark of marks) left.push(mark);
  return { notches: inEdgeOrder(panel, notches), left };
};

/** Notches edge by edge as the outline runs, so that what is written does not depend on the drawing's order. */
const inEdgeOrder = (panel: Panel, notches: readonly Notch[]): Notch[] =>
  panel.edges.flatMap((edge) =>
    notches.filter((notch) => notch.edge === edge.name).toSorted((a, b) => a.at.y - b.at.y || a.at.x - b.at.x),
  );

const placeGrain = (path: Path, matrix: Matrix): Grain => {
  const [a, b] = [pathStart(path), pathEnd(path)].map((p) => roundPoint(transformPoint(p, matrix)));
  return a!.y <= b!.y ? { from: a!, to: b! } : { from: b!, to: a! };
};

/** A panel whose known levels come in the wrong order lies upside down. */
const upsideDown = (panel: Panel): Finding[] => {
  const order = panel.levels.map((level) => KNOWN_LEVELS.indexOf(level.name)).filter((at) => at >= 0);
  const wrong = order.some((at, index) => index > 0 && at < order[index - 1]!);
  if (!wrong) return [];
  return [
    {
      weight: 'warning',
      kind: 'levels-out-of-order',
      where: `panel ${panel.name}`,
      message: `its levels run ${panel.levels.map((level) => level.name).join(', ')} from the top down`,
      cure: `if it is drawn upside down: --turn ${panel.name}=180`,
    },
  ];
};
