import { joinBoxes, pathBox } from '../geometry/box.ts';
import { translation } from '../geometry/matrix.ts';
import { roundPath } from '../geometry/round-path.ts';
import { translatePath } from '../geometry/transform-path.ts';
import { vector } from '../geometry/vector.ts';
import type { Drawing } from '../pattern/drawing.ts';
import type { Finding } from '../pattern/finding.ts';
import type { Edge, Panel } from '../pattern/panel.ts';
import type { Units } from '../pattern/pattern.ts';
import { addOtherLine } from './add-other-line.ts';
import { isName } from './check-answers.ts';
import { cornerCandidates, type Candidate } from './corner-candidates.ts';
import { runBetween } from './cut-edges.ts';
import { holds } from './holds.ts';
import { keepMarks } from './keep-marks.ts';
import type { Labelled } from './label-drawing.ts';
import { refuseAbsurdSize, scaleFindings } from './scale-findings.ts';
import { middleOf } from './shape.ts';
import { sortOutlines, type DrawnPanel } from './sort-outlines.ts';
import { sortStrokes } from './sort-strokes.ts';

/** Turns below this stay within an edge. */
const SHARP = (25 * Math.PI) / 180;

/** A bevel turns by about half a corner at each of its ends, so in all by less than this. */
const MOST_BEVEL = (115 * Math.PI) / 180;

/**
 * A pattern of outlines about which nothing was said but that they are cutting lines: panels called by their ids, else `panel-1` and so
 * on from left to right; edges called `edge-1` and so on from their sharp turns, clockwise from the upper left. They lie as they are
 * drawn, without levels: enough to take the allowance off all round.
 */
export const unlabelledPattern = (drawing: Drawing, units: Units): Labelled => {
  refuseAbsurdSize(drawing.outlines);
  const sorted = sortOutlines(drawing.outlines, 'cutting');
  const lying = sorted.panels.toSorted((a, b) => middleOf(a.shape).x - middleOf(b.shape).x);
  const names = panelNames(lying);
  const marks = (panel: DrawnPanel) => sorted.marks.filter((mark) => holds(panel, middleOf(mark)));
  const made = lying.map((panel, at) => {
    const around = {
      artwork: drawing.artwork.filter((art) => holds(panel, art.at)),
      marks: marks(panel).map((mark) => mark.path),
    };
    return plainPanel(names[at]!, panel, drawing, around);
  });
  const named = lying.map(({ shape }, at) => ({ shape, name: names[at]! }));
  const findings: Finding[] = [
    ...scaleFindings(named),
    ...sorted.findings,
    ...made.flatMap((one) => one.findings),
    {
      weight: 'note',
      kind: 'not-labelled',
      where: drawing.name,
      message: `plain outlines, taken for cutting lines: ${names.join(', ')} from left to right, edges by their corners`,
      cure: 'to measure and alter them, name panels, seams and levels first: staywright label',
    },
  ];
  return { pattern: { name: drawing.name, pieces: 'pairs', units, panels: made.map(({ panel }) => panel) }, findings };
};

const panelNames = (lying: readonly DrawnPanel[]): string[] => {
  const ids = lying.map(({ shape }) => shape.outline.id);
  return ids.map((id, at) =>
    id !== undefined && isName(id) && ids.indexOf(id) === at && ids.lastIndexOf(id) === at ? id : `panel-${at + 1}`,
  );
};

const plainPanel = (
  name: string,
  drawn: DrawnPanel,
  drawing: Drawing,
  around: Parameters<typeof keepMarks>[2],
): { panel: Panel; findings: readonly Finding[] } => {
  const loose = plainEdges(drawn);
  const box = joinBoxes(loose.map((edge) => pathBox(edge.path)));
  const shift = vector(-box.minX, -box.minY);
  const edges = loose.map((edge) => ({ name: edge.name, path: roundPath(translatePath(edge.path, shift)) }));
  const bare: Panel = { name, line: 'cutting', edges, levels: [], notches: [], bones: [] };
  const matrix = translation(shift.dx, shift.dy);
  const strokes = sortStrokes([drawn.shape.path], drawing.strokes, []);
  return addOtherLine(keepMarks(bare, strokes, around, matrix), drawn.other?.path, matrix);
};

/** The runs between sharp turns, bevels run on; an outline without two sharp turns is one edge. */
const plainEdges = ({ shape }: DrawnPanel): Edge[] => {
  const { path, box } = shape;
  const width = Math.min(box.maxX - box.minX, box.maxY - box.minY);
  const found = cornerCandidates(path, true, width).filter((corner) => corner.turn >= SHARP);
  const bevels = found.filter((corner) => corner.run === 'bevelled' && corner.turn <= MOST_BEVEL);
  const total = path.segments.length;
  const within = (corner: Candidate, bevel: Candidate): boolean =>
    (corner.from.segment - bevel.from.segment + total) % total <=
    (bevel.to.segment - bevel.from.segment + total) % total;
  const apart = bevels.filter((bevel, at) => !bevels.some((other, index) => index < at && within(bevel, other)));
  const plain = found.filter((corner) => corner.run === 'none' && !apart.some((bevel) => within(corner, bevel)));
  const corners = [...plain, ...apart].toSorted((a, b) => a.from.segment - b.from.segment);
  if (corners.length < 2) return [{ name: 'edge-1', path }];
  const score = ({ at }: Candidate): number => at.x - box.minX + at.y - box.minY;
  const first = corners.indexOf(corners.toSorted((a, b) => score(a) - score(b))[0]!);
  const turned = [...corners.slice(first), ...corners.slice(0, first)];
  return turned.map((corner, at) => ({
    name: `edge-${at + 1}`,
    path: runBetween(path, corner, turned[(at + 1) % turned.length]!),
  }));
};
