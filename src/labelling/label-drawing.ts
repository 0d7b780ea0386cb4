import { StaywrightError } from '../errors.ts';
import type { Drawing } from '../pattern/drawing.ts';
import type { Finding } from '../pattern/finding.ts';
import type { Pattern } from '../pattern/pattern.ts';
import { checkAnswers } from './check-answers.ts';
import { hangDrawnPanel, type HungPanel } from './hang-drawn-panel.ts';
import { holds } from './holds.ts';
import { KNOWN_LEVELS } from './known-levels.ts';
import type { LabelAnswers } from './label-answers.ts';
import { leftOut } from './left-out.ts';
import { linesLikeLevels } from './lines-like-levels.ts';
import { labelPanel } from './label-panel.ts';
import { checkLevelBases } from './level-heights.ts';
import { nameOutlines } from './name-outlines.ts';
import { orderFindings } from './order-findings.ts';
import { refuseAbsurdSize, SCALE_CURE, scaleFindings } from './scale-findings.ts';
import { middleOf } from './shape.ts';
import { sortOutlines } from './sort-outlines.ts';
import { insideOf, levelNamed } from './sort-strokes.ts';

export interface Labelled {
  readonly pattern: Pattern;
  readonly findings: readonly Finding[];
}

/**
 * Makes a pattern of a plain drawing by what its maker answers: panels named, hung on their grain with centre front to the left, and
 * parted into edges; levels, notches, grain and artwork put in their places. The drawing is taken in millimetres, its outlines closed
 * and clockwise. What was guessed or left out is told in the findings. Throws `usage` for answers that contradict each other or name
 * what is not there, `input` for a drawing that cannot be a pattern.
 */
export const labelDrawing = (drawing: Drawing, answers: LabelAnswers): Labelled => {
  checkAnswers(answers);
  refuseAbsurdSize(drawing.outlines);
  const sorted = sortOutlines(drawing.outlines, answers.line);
  const { named, findings: naming } = nameOutlines(sorted.panels, answers, drawing.warnings);
  const levelNames = [...new Set(['waist', ...KNOWN_LEVELS, ...answers.levels.map((level) => level.name)])];
  const hung = named.map((panel) => hangDrawnPanel(panel, drawing.strokes, answers, levelNames));
  checkLevelBases(
    answers,
    hung.flatMap((panel) => panel.strokes.levels.map((level) => level.name)),
  );
  refuseWithoutWaist(hung, drawing);
  const labelled = hung.map((panel, at) =>
    labelPanel(
      panel,
      {
        frontSeam: answers.seams[at]!,
        backSeam: answers.seams[at + 1]!,
        artwork: drawing.artwork.filter((art) => holds(panel.drawn, art.at)),
        marks: sorted.marks.filter((mark) => holds(panel.drawn, middleOf(mark))).map((mark) => mark.path),
      },
      answers,
    ),
  );
  const pattern: Pattern = {
    name: answers.name ?? drawing.name,
    pieces: answers.pieces,
    units: answers.units,
    panels: labelled.map(({ panel }) => panel),
  };
  const likeLevels = linesLikeLevels(drawing.strokes, hung, pattern.panels);
  const findings = [
    ...scaleFindings(named),
    ...orderFindings(pattern),
    ...sorted.findings,
    ...naming,
    ...labelled.flatMap((panel) => panel.findings),
    ...likeLevels.findings,
    ...leftOut(drawing, hung, likeLevels.lines),
  ];
  return { pattern, findings };
};

const refuseWithoutWaist = (hung: readonly HungPanel[], drawing: Drawing): void => {
  const without = hung.filter((panel) => !panel.heights.has('waist'));
  const lacking = without.map((panel) => panel.name);
  if (lacking.length === 0) return;
  for (const panel of without) refuseWrongScale(panel, drawing);
  const message = `no waist line on ${lacking.join(', ')}: every panel needs one, as panels are matched on it`;
  const typed = lacking.map((name) => `${name}:210mm`).join(',');
  throw new StaywrightError('input', message, {
    where: '--level waist',
    hint: `draw a straight line across the panel with the id waist, or measure it down from the highest point: --level waist=${typed}`,
  });
};

/** A panel too small to be one, or a waist too short to be one, has another scale rather than no waist. */
const refuseWrongScale = ({ name, drawn }: HungPanel, { strokes }: Drawing): void => {
  const where = `panel ${name}`;
  const [size] = scaleFindings([drawn]);
  if (size !== undefined) throw new StaywrightError('input', size.message, { where, hint: SCALE_CURE });
  const short = strokes
    .filter((stroke) => levelNamed(stroke, ['waist']) !== undefined)
    .flatMap((stroke) => insideOf(drawn.shape.path, stroke.path)?.length ?? []);
  if (short.length === 0) return;
  const message = `the line called waist is only ${Math.max(...short).toFixed(1)} mm long there: is the drawing at its true scale?`;
  throw new StaywrightError('input', message, { where, hint: SCALE_CURE });
};
