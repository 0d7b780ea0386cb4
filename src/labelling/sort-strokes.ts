import { isInside } from '../geometry/area.ts';
import { pathLength } from '../geometry/arc-length.ts';
import { flattenPath } from '../geometry/flatten.ts';
import { intersectPaths } from '../geometry/intersect.ts';
import { nearestPoint } from '../geometry/nearest-point.ts';
import { pathEnd, pathStart, type Path } from '../geometry/path.ts';
import { between, distance, type Point } from '../geometry/point.ts';
import { line } from '../geometry/segment.ts';
import type { Stroke } from '../pattern/drawing.ts';

/** The strokes of one panel by what they are. */
export interface PanelStrokes {
  readonly levels: readonly { readonly name: string; readonly stroke: Stroke }[];
  readonly notches: readonly Stroke[];
  readonly grain?: Stroke;
  readonly others: readonly Stroke[];
}

/** A longer line is no notch, and a shorter one no level: millimetres. */
export const LONGEST_NOTCH = 12;

/** How near a notch must come to the outline to touch it, in millimetres: hand-drawn ends. */
export const TOUCH = 0.5;

/** How far a level may bow from straight, in millimetres, before it is no line across the panel. */
const LEVEL_BOW = 1;

/**
 * The level a stroke is named after: by the first of its names (its own before its groups') that is a level's name alone or followed
 * by `-` or `_` and anything; the longest such level wins. Capitals do not matter.
 */
export const levelNamed = (stroke: Stroke, levels: readonly string[]): string | undefined => {
  for (const name of stroke.names.map((own) => own.toLowerCase())) {
    const fitting = levels
      .filter((level) => name === level.toLowerCase() || /^[-_]/.test(afterStart(name, level.toLowerCase())))
      .toSorted((a, b) => b.length - a.length);
    if (fitting[0] !== undefined) return fitting[0];
  }
  return undefined;
};

const afterStart = (name: string, start: string): string => (name.startsWith(start) ? name.slice(start.length) : '');

const isGrain = (stroke: Stroke): boolean => stroke.names.some((name) => name.toLowerCase().startsWith('grain'));

/**
 * Sorts the strokes that lie in, on or across a panel, of which one line is drawn or both; a level drawn right across several panels
 * belongs to each of them.
 */
export const sortStrokes = (
  lines: readonly Path[],
  strokes: readonly Stroke[],
  levelNames: readonly string[],
): PanelStrokes => {
  const levels: { name: string; stroke: Stroke }[] = [];
  const notches: Stroke[] = [];
  const grains: Stroke[] = [];
  const others: Stroke[] = [];
  const inside = (p: Point): boolean => lines.some((one) => isInside(one, p));
  for (const stroke of strokes) {
    const length = pathLength(stroke.path);
    const level = levelNamed(stroke, levelNames);
    if (isGrain(stroke)) {
      if (inside(middleOf(stroke.path))) grains.push(stroke);
    } else if (length <= LONGEST_NOTCH && lines.some((one) => touches(one, stroke.path))) {
      notches.push(stroke);
    } else if (
      level !== undefined &&
      length > LONGEST_NOTCH &&
      isStraight(stroke.path) &&
      liesAcross(lines[0]!, stroke.path)
    ) {
      levels.push({ name: level, stroke });
    } else if (inside(middleOf(stroke.path))) {
      others.push(stroke);
    }
  }
  const [grain, ...rest] = grains.toSorted((a, b) => pathLength(b.path) - pathLength(a.path));
  return { levels, notches, others: [...others, ...rest], ...(grain ? { grain } : {}) };
};

/** The middle of the line from its first point to its last. */
export const middleOf = (path: Path): Point => between(pathStart(path), pathEnd(path), 0.5);

/** Whether a line meets the outline, or comes to it but for a hair. */
export const touches = (outline: Path, path: Path): boolean => {
  const points = flattenPath(path, TOUCH / 2);
  const inside = points.map((p) => isInside(outline, p));
  return inside.some((one) => one !== inside[0]) || points.some((p) => nearestPoint(outline, p).distance <= TOUCH);
};

/** But for a bow that a hand leaves. */
export const isStraight = (path: Path): boolean => {
  const [start, end] = [pathStart(path), pathEnd(path)];
  const chord: Path = { segments: [line(start, end)] };
  return flattenPath(path, LEVEL_BOW / 4).every((p) => nearestPoint(chord, p).distance <= LEVEL_BOW);
};

/** The stretch of a straight level's line that lies inside the outline, from where it first enters to where it last leaves. */
export interface InsideStretch {
  readonly from: Point;
  readonly to: Point;
  /** Millimetres inside; less than from one to the other where the outline bends away between. */
  readonly length: number;
}

/** Undefined where no part of the line from the path's first point to its last lies inside. */
export const insideOf = (outline: Path, path: Path): InsideStretch | undefined => {
  const chord: Path = { segments: [line(pathStart(path), pathEnd(path))] };
  const cuts = [pathStart(path), ...intersectPaths(chord, outline).map((crossing) => crossing.point), pathEnd(path)];
  const stretches = cuts
    .slice(1)
    .map((to, at) => ({ from: cuts[at]!, to }))
    .filter(({ from, to }) => isInside(outline, between(from, to, 0.5)));
  const [first, last] = [stretches[0], stretches.at(-1)];
  if (first === undefined || last === undefined) return undefined;
  return {
    from: first.from,
    to: last.to,
    length: stretches.reduce((sum, { from, to }) => sum + distance(from, to), 0),
  };
};

/** Whether more than a notch's length of it lies inside, or half of it. */
const liesAcross = (outline: Path, path: Path): boolean => {
  const length = insideOf(outline, path)?.length ?? 0;
  return length > LONGEST_NOTCH || length > distance(pathStart(path), pathEnd(path)) / 2;
};
