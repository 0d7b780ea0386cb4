import { joinBoxes, pathBox } from '../geometry/box.ts';
import { compose, translation } from '../geometry/matrix.ts';
import type { Point } from '../geometry/point.ts';
import { roundPath } from '../geometry/round-path.ts';
import { transformPoint, translatePath } from '../geometry/transform-path.ts';
import { vector } from '../geometry/vector.ts';
import { StaywrightError } from '../errors.ts';
import type { Finding } from '../pattern/finding.ts';
import type { Panel } from '../pattern/panel.ts';
import { cutEdges } from './cut-edges.ts';
import { findCorners } from './find-corners.ts';
import type { HungPanel } from './hang-drawn-panel.ts';
import { keepMarks, type PanelInside } from './keep-marks.ts';
import { KNOWN_LEVELS } from './known-levels.ts';
import type { CornerName, LabelAnswers } from './label-answers.ts';
import { placeLevels } from './place-levels.ts';
import { addOtherLine } from './add-other-line.ts';

export interface PanelSurroundings extends PanelInside {
  readonly frontSeam: string;
  readonly backSeam: string;
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
  const found = findCorners(hung.outline, answers.line, given, hung.name, hung.matrix);
  const loose = cutEdges(hung.outline, found.corners, around.backSeam, around.frontSeam);
  const waist = hung.heights.get('waist')!;
  const shift = vector(-joinBoxes(loose.map((edge) => pathBox(edge.path))).minX, -waist);
  const matrix = compose(translation(shift.dx, shift.dy), hung.matrix);
  const edges = loose.map(({ name, path }) => ({ name, path: roundPath(translatePath(path, shift)) }));
  const bare: Panel = { name: hung.name, line: answers.line, edges, levels: [], notches: [], bones: [] };
  const placed = placeLevels(bare, new Map([...hung.heights].map(([name, y]) => [name, y - waist])));
  refuseWithoutWaist(hung.name, placed.levels);
  const panel = keepMarks({ ...bare, levels: placed.levels }, hung.strokes, around, matrix);
  const both = addOtherLine(panel, hung.drawn.other?.path, matrix);
  const findings = [...hung.findings, ...found.findings, ...placed.findings, ...upsideDown(panel), ...both.findings];
  return { panel: both.panel, findings };
};

/** A height that was measured wrongly may lie off the panel; the waist cannot be left out like another level. */
const refuseWithoutWaist = (panel: string, levels: Panel['levels']): void => {
  if (levels.some(({ name }) => name === 'waist')) return;
  throw new StaywrightError('input', 'the waist lies above or below the panel', {
    where: `panel ${panel}`,
    hint: `measure it down from the highest point of the panel: --level waist=${panel}:210mm`,
  });
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
