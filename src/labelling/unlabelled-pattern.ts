import { flattenPath } from '../geometry/flatten.ts';
import { cornersOf } from '../geometry/corners.ts';
import { nearestPoint } from '../geometry/nearest-point.ts';
import type { Path } from '../geometry/path.ts';
import { roundPath } from '../geometry/round-path.ts';
import { translatePath } from '../geometry/transform-path.ts';
import { vector } from '../geometry/vector.ts';
import { StaywrightError } from '../errors.ts';
import type { Drawing, Stroke } from '../pattern/drawing.ts';
import { outlineOf } from '../pattern/outline.ts';
import type { Edge, Panel } from '../pattern/panel.ts';
import type { Units } from '../pattern/pattern.ts';
import type { Labelled } from './label-drawing.ts';
import { placeNotch } from './place-notch.ts';
import { refuseAbsurdSize, scaleFindings } from './scale-findings.ts';
import type { Shape } from './shape.ts';
import { sortOutlines } from './sort-outlines.ts';
import { LONGEST_NOTCH, TOUCH } from './sort-strokes.ts';

/** How closely a short line is looked at to tell whether it touches an outline, in millimetres. */
const STEP = 0.05;

/**
 * A pattern of a plain drawing whose maker answered nothing: cutting lines of `panel-1`, `panel-2`, ... from left to right, each with
 * an edge from every corner to the next (`1-2`, `2-3`, ... clockwise), and the notches on them. It has no seams and no levels.
 * Throws `input` where there is no outline.
 */
export const unlabelledPattern = (drawing: Drawing, units: Units): Labelled => {
  refuseAbsurdSize(drawing.outlines);
  const { panels: drawn, findings } = sortOutlines(drawing.outlines, 'cutting');
  if (drawn.length === 0) {
    throw new StaywrightError('input', 'has no closed outline', {
      where: drawing.name,
      hint: 'draw each panel as one closed line',
    });
  }
  const named = drawn
    .toSorted((a, b) => a.shape.box.minX - b.shape.box.minX)
    .map(({ shape }, at) => ({ name: `panel-${at + 1}`, shape }));
  return {
    pattern: {
      name: drawing.name,
      pieces: 'pairs',
      units,
      panels: named.map(({ name, shape }) => plainPanel(name, shape, drawing.strokes)),
    },
    findings: [...scaleFindings(named), ...findings],
  };
};

const plainPanel = (name: string, { box, path }: Shape, strokes: readonly Stroke[]): Panel => {
  const shift = vector(-box.minX, -box.minY);
  const edges = edgesOf(roundPath(translatePath(path, shift)));
  const bare: Panel = { name, line: 'cutting', edges, levels: [], notches: [], bones: [] };
  const notches = strokes
    .map((stroke) => translatePath(stroke.path, shift))
    .filter((stroke) => isNotchOn(bare, stroke))
    .flatMap((stroke) => placeNotch(bare, stroke) ?? []);
  return { ...bare, notches };
};

const edgesOf = (outline: Path): Edge[] => {
  const corners = cornersOf(outline);
  if (corners.length < 2) return [{ name: '1-1', path: outline }];
  return corners.map((from, at) => {
    const to = corners[at + 1];
    const { segments } = outline;
    const run =
      to === undefined ? [...segments.slice(from), ...segments.slice(0, corners[0])] : segments.slice(from, to);
    return { name: `${at + 1}-${((at + 1) % corners.length) + 1}`, path: { segments: run } };
  });
};

/** Short enough for a notch, and coming to the outline. */
const isNotchOn = (panel: Panel, stroke: Path): boolean => {
  const points = flattenPath(stroke, STEP);
  const [xs, ys] = [points.map(({ x }) => x), points.map(({ y }) => y)];
  const size = Math.hypot(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys));
  if (size > LONGEST_NOTCH) return false;
  const outline = outlineOf(panel);
  return points.some((p) => nearestPoint(outline, p).distance <= TOUCH);
};
