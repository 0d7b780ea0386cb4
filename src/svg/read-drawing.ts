import { StaywrightError } from '../errors.ts';
import { signedArea } from '../geometry/area.ts';
import { pathBox } from '../geometry/box.ts';
import { flattenPath } from '../geometry/flatten.ts';
import { scaling } from '../geometry/matrix.ts';
import { pathStart, type Path } from '../geometry/path.ts';
import { distance, type Point } from '../geometry/point.ts';
import { reversePath } from '../geometry/reverse-path.ts';
import { FLAT_WIDTH } from '../geometry/tolerance.ts';
import { cross, unit, vectorTo } from '../geometry/vector.ts';
import type { Drawing, Outline, Stroke } from '../pattern/drawing.ts';
import { findTestSquare, squareSide } from './find-test-square.ts';
import { joinPieces } from './join-pieces.ts';
import { LEAST_LIKELY_SIZE, MOST_LIKELY_SIZE, MOST_PANEL_SIZE } from './limits.ts';
import { rootViewport } from './root-viewport.ts';
import { walkDrawing, type Piece } from './walk-drawing.ts';
import { withinGroup } from './within-group.ts';
import type { XmlDocument } from './xml-document.ts';

const SCALE_HINT = 'correct it with --scale or --test-square';

/** Whether all of a closed path lies on one straight line. */
const isFlat = (path: Path): boolean => {
  const start = pathStart(path);
  const points = flattenPath(path, FLAT_WIDTH);
  const farthest = points.reduce<Point>((far, p) => (distance(start, p) > distance(start, far) ? p : far), start);
  const along = unit(vectorTo(start, farthest));
  return points.every((p) => Math.abs(cross(along, vectorTo(start, p))) <= FLAT_WIDTH);
};

const outlineOf = ({ path, id, where }: Piece): Outline => ({
  path: signedArea(path) < 0 ? reversePath(path) : path,
  where,
  ...(id === undefined ? {} : { id }),
});

/** A closed line there and back is drawn once. */
const strokeOf = ({ path, closed, id, names, where }: Piece): Stroke => ({
  path: closed && path.segments.length > 1 ? { segments: path.segments.slice(0, -1) } : path,
  names,
  where,
  ...(id === undefined ? {} : { id }),
});

/** An outline without an id takes its group's where it is the only one there. */
const withGroupIds = (closed: readonly Piece[]): Piece[] => {
  const counts = new Map<string, number>();
  for (const { id, group } of closed) {
    if (id === undefined && group !== undefined) counts.set(group, (counts.get(group) ?? 0) + 1);
  }
  return closed.map((piece) =>
    piece.id === undefined && piece.group !== undefined && counts.get(piece.group) === 1
      ? { ...piece, id: piece.group }
      : piece,
  );
};

const sizeWarnings = (outlines: readonly Outline[]): string[] =>
  outlines.flatMap(({ path, id, where }) => {
    const { minX, minY, maxX, maxY } = pathBox(path);
    const size = Math.max(maxX - minX, maxY - minY);
    const what = id === undefined ? 'an outline' : `outline ${id}`;
    if (size > MOST_PANEL_SIZE) {
      throw new StaywrightError('input', `${what} is ${Math.round(size / 1000)} m across`, { where, hint: SCALE_HINT });
    }
    if (size >= LEAST_LIKELY_SIZE && size <= MOST_LIKELY_SIZE) return [];
    return [
      `${where}: ${what} is ${size < 1000 ? `${size.toFixed(1)} mm` : `${(size / 1000).toFixed(2)} m`} across: is the scale right? ${SCALE_HINT}`,
    ];
  });

const isOutline = (piece: Piece): boolean => piece.closed && !isFlat(piece.path);

interface Read {
  readonly outlines: readonly Outline[];
  readonly rest: Omit<Drawing, 'outlines' | 'name'>;
}

const readAt = (document: XmlDocument, scale: number): Read => {
  const walked = walkDrawing(document, scaling(scale));
  const { pieces, warnings } = joinPieces(walked.pieces);
  return {
    outlines: withGroupIds(pieces.filter(isOutline)).map(outlineOf),
    rest: {
      strokes: pieces.filter((piece) => !isOutline(piece)).map(strokeOf),
      artwork: walked.artwork,
      warnings: [...walked.warnings, ...warnings],
    },
  };
};

/** A file's name without folder and ending. */
const nameOf = (file: string): string => file.replace(/^.*[/\\]/, '').replace(/\.[^.]*$/, '');

/**
 * A plain drawing in millimetres: closed shapes as outlines that run clockwise, other lines as strokes, text and pictures as artwork.
 * `within` names the one group that is read; the test square is looked for in the whole drawing.
 * Throws an `input` error for what cannot be read or is over 100 m, a `usage` error where no test square or group is found.
 */
export const readDrawing = (
  document: XmlDocument,
  correction: { readonly scale?: number; readonly testSquare?: number; readonly within?: string },
): Drawing => {
  const name = nameOf(document.file);
  const chosen = correction.within === undefined ? document : withinGroup(document, correction.within);
  const { isMeasured, isStretched } = rootViewport(document);
  const warnings: string[] = [];
  if (isStretched) warnings.push('the drawing is stretched: its page size and viewBox have different proportions');
  if (correction.testSquare !== undefined) {
    const drawn = findTestSquare(readAt(document, 1).outlines, document.file);
    const factor = correction.testSquare / drawn.side;
    const { outlines, rest } = readAt(chosen, factor);
    const isTestSquare = (outline: Outline): boolean =>
      outline.where === drawn.outline.where && squareSide(outline)?.toFixed(3) === correction.testSquare?.toFixed(3);
    const kept = outlines.filter((outline) => !isTestSquare(outline));
    if (factor.toFixed(4) !== '1.0000') {
      warnings.push(
        `the test square is ${drawn.side.toFixed(2)} mm as drawn: every size is multiplied by ${factor.toFixed(4)}`,
      );
    }
    return { name, outlines: kept, ...rest, warnings: [...warnings, ...rest.warnings, ...sizeWarnings(kept)] };
  }
  if (!isMeasured && correction.scale === undefined) {
    warnings.push(
      'the drawing gives no size in mm or inches, so 96 px are taken for an inch: measure one line to be sure',
    );
  }
  const { outlines, rest } = readAt(chosen, correction.scale ?? 1);
  return { name, outlines, ...rest, warnings: [...warnings, ...rest.warnings, ...sizeWarnings(outlines)] };
};
