/**
 * What is drawn on a panel besides its outline. At working size the outline's own ink is taken away, the rest thinned to strokes; marks
 * are told apart there, then measured in the full picture.
 */
import type { Path } from '../../geometry/path.ts';
import type { Line } from '../../geometry/segment.ts';
import type { FoundMarks } from '../found-marks.ts';
import type { Picture } from '../picture.ts';
import type { PictureKind } from '../rough-outline.ts';
import type { WorkingPicture } from '../working-picture.ts';
import { findArt } from './find-art.ts';
import { findLines } from './find-lines.ts';
import { findNotches, type Stroke } from './find-notches.ts';
import { printJudge } from './is-printed.ts';
import { takeTriangles } from './find-triangles.ts';
import { markField, placeOf, touchesOutline } from './mark-field.ts';
import { printContrast } from './print-contrast.ts';
import { straightPieces } from './straight-pieces.ts';
import { thinInk } from './thin-ink.ts';
import { pruneShoots, traceStrokes } from './trace-strokes.ts';

/** A line's width as long as it is not known, millimetres. */
const LINE_WIDTH = 0.6;
/** Strokes are taken apart into straight pieces that they run along so nearly; millimetres. */
const STRAIGHT = 0.18;
const SHOOT = 0.5;

/**
 * The marks of the panel within a closed `outline` (clockwise, accurate), in places of the picture: notches, grain and lines across to
 * 0.1 mm, other ink inside as art to about that. `lineWidth`, in pixels, is how wide the outline's ink is; `leaveOut` are other
 * outlines whose own ink is no mark. Nothing beside the outline but notches is looked at.
 */
export const findMarks = (
  picture: Picture,
  working: WorkingPicture,
  outline: Path,
  kind: PictureKind,
  pxPerMm: number,
  lineWidth: number = kind === 'line' ? LINE_WIDTH * pxPerMm : 0,
  leaveOut: readonly Path[] = [],
): FoundMarks => {
  const field = markField(working, outline, kind, pxPerMm, lineWidth, leaveOut);
  const triangles = takeTriangles(picture, field, outline, lineWidth, pxPerMm);
  const thin = pruneShoots(thinInk(field.ink, field.width), Math.round((SHOOT * pxPerMm) / field.step));
  const strokes: Stroke[] = traceStrokes(thin).map(({ pixels, degrees }) => ({
    points: pixels.map((p) => placeOf(field, p)),
    isFree: [degrees[0] <= 1, degrees[1] <= 1],
  }));
  const piecesOf = ({ points }: Stroke): Line[] => straightPieces(points, STRAIGHT * pxPerMm);
  const pieces = strokes.flatMap(piecesOf);
  // What may itself be a tick, or pencil like one, does not tell what print is.
  const isTick = ({ points, isFree }: Stroke): boolean =>
    [points[0]!, points.at(-1)!].some((end, i) => touchesOutline(field, end) && isFree[1 - i]!);
  const others = strokes.filter((stroke) => !isTick(stroke)).flatMap(piecesOf);
  const printed = printContrast(picture, others, pxPerMm);
  const { faintest, isPrinted } = printJudge(picture, outline, kind, printed, pxPerMm);
  const { grain, across, arrows } = findLines(picture, field, outline, pieces, pxPerMm, faintest);
  const lines = [...grain, ...across];
  const notches = findNotches(picture, working, field, outline, strokes, lineWidth, pxPerMm, isPrinted, lines);
  const marks = [...lines, ...notches.map((n) => n.ink)];
  return {
    notches: [...notches.map((n) => n.notch), ...triangles],
    grain,
    across,
    art: findArt(field, thin, marks, arrows, pxPerMm),
  };
};
