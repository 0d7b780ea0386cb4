import { StaywrightError } from '../errors.ts';
import { isInside } from '../geometry/area.ts';
import { boxesMeet } from '../geometry/box.ts';
import { intersectPaths, selfCrossings } from '../geometry/intersect.ts';
import { nearestPoint } from '../geometry/nearest-point.ts';
import type { Point } from '../geometry/point.ts';
import type { Outline } from '../pattern/drawing.ts';
import type { Finding } from '../pattern/finding.ts';
import type { LineKind } from '../pattern/panel.ts';
import { describePoint, describeShape, middleOf, shapeOf, sizeOf, type Shape } from './shape.ts';

/** An outline that is a panel, and the panel's other line where both were drawn. */
export interface DrawnPanel {
  readonly shape: Shape;
  readonly other?: Shape;
}

export interface SortedOutlines {
  readonly panels: readonly DrawnPanel[];
  /** Closed shapes inside a panel that are marks, not lines of it. */
  readonly marks: readonly Shape[];
  readonly findings: readonly Finding[];
}

/** Closed shapes no larger than a notch, in millimetres. */
const MARK_SIZE = 12;

/** Lying deeper within each other than this, two outlines overlap; less is a shared or touching line. */
const OVERLAP_DEPTH = 0.5;

/** Two lines of one panel are nowhere farther apart: 40 mm of allowance round a right-angled corner is 57 mm. */
const SECOND_LINE_REACH = 60;

/** Two outlines nearer than this all the way round are one that was drawn twice. */
const COPY_DISTANCE = 0.05;

/**
 * Tells panels from frames, second lines, marks and copies. Of two outlines one within the other the outer is the cutting line and
 * the inner the stitching line of one panel. Throws `input` for outlines that cross themselves or overlap, and for three in a nest.
 */
export const sortOutlines = (outlines: readonly Outline[], line: LineKind): SortedOutlines => {
  const findings: Finding[] = [];
  const all = outlines.map(shapeOf).toSorted((a, b) => b.area - a.area);
  for (const shape of all) refuseSelfCrossing(shape);
  const single = withoutCopies(all, findings);
  const marks = single.filter((shape) => isMark(shape, single));
  const { kept, frames } = withoutFrames(single.filter((shape) => !marks.includes(shape)));
  for (const frame of frames) {
    findings.push({
      weight: 'note',
      kind: 'frame-left-out',
      where: frame.outline.where,
      message: `the rectangle round the panels is taken for a frame and left out`,
    });
  }
  const panels: DrawnPanel[] = [];
  const taken = new Set<Shape>();
  for (const outer of kept) {
    if (taken.has(outer)) continue;
    const within = kept.filter((inner) => inner !== outer && !taken.has(inner) && relation(outer, inner) === 'within');
    const lines = within.filter((inner) => isSecondLine(outer, inner));
    if (lines.length > 1) refuseNest(outer, lines);
    for (const shape of within) taken.add(shape);
    marks.push(...within.filter((inner) => !lines.includes(inner)));
    const [inner] = lines;
    if (inner === undefined) panels.push({ shape: outer });
    else panels.push(line === 'cutting' ? { shape: outer, other: inner } : { shape: inner, other: outer });
  }
  return { panels, marks, findings };
};

/** Whether a point is farther from the line than outlines that only touch are. */
const deep = (p: Point, shape: Shape): boolean => nearestPoint(shape.path, p).distance > OVERLAP_DEPTH;

/** How the smaller outline lies to the larger; overlapping throws. */
const relation = (larger: Shape, smaller: Shape): 'apart' | 'within' => {
  if (!boxesMeet(larger.box, smaller.box)) return 'apart';
  const inside = smaller.samples.find((point) => isInside(larger.path, point) && deep(point, larger));
  const outside = smaller.samples.find((point) => !isInside(larger.path, point) && deep(point, larger));
  if (inside !== undefined && outside !== undefined) refuseOverlap(larger, smaller, inside);
  const [crossing] = intersectPaths(larger.path, smaller.path);
  if (crossing !== undefined) {
    const reached = larger.samples.some((point) => isInside(smaller.path, point) && deep(point, smaller));
    if (reached && outside !== undefined) refuseOverlap(larger, smaller, crossing.point);
  }
  return inside !== undefined && outside === undefined ? 'within' : 'apart';
};

const refuseOverlap = (larger: Shape, smaller: Shape, at: Point): never => {
  const message = `overlaps the outline ${describeShape(larger)} (${larger.outline.where}) at ${describePoint(at)}`;
  const hint = 'move the panels apart; of a nest of sizes read one: --within GROUP';
  throw new StaywrightError('input', `outline ${describeShape(smaller)} ${message}`, {
    where: smaller.outline.where,
    hint,
  });
};

const refuseNest = (outer: Shape, lines: readonly Shape[]): never => {
  const all = [outer, ...lines].map(describeShape).join('; ');
  throw new StaywrightError('input', `${lines.length + 1} outlines lie one within another: ${all}`, {
    where: outer.outline.where,
    hint: 'a panel has a cutting and a stitching line at most; of a nest of sizes read one: --within GROUP',
  });
};

const refuseSelfCrossing = (shape: Shape): void => {
  const [crossing] = selfCrossings(shape.path);
  if (crossing === undefined) return;
  const message = `outline ${describeShape(shape)} crosses itself at ${describePoint(crossing.point)}`;
  throw new StaywrightError('input', message, {
    where: shape.outline.where,
    hint: 'redraw that place so that the outline goes round once',
  });
};

const withoutCopies = (shapes: readonly Shape[], findings: Finding[]): Shape[] => {
  const kept: Shape[] = [];
  for (const shape of shapes) {
    const first = kept.findIndex((other) => isCopy(other, shape));
    if (first < 0) {
      kept.push(shape);
      continue;
    }
    if (kept[first]!.outline.id === undefined) kept[first] = shape;
    findings.push({
      weight: 'note',
      kind: 'outline-drawn-twice',
      where: shape.outline.where,
      message: `outline ${describeShape(shape)} was drawn twice; one is used`,
    });
  }
  return kept;
};

const isCopy = (a: Shape, b: Shape): boolean =>
  Math.abs(a.box.minX - b.box.minX) < COPY_DISTANCE &&
  Math.abs(a.box.maxX - b.box.maxX) < COPY_DISTANCE &&
  Math.abs(a.box.minY - b.box.minY) < COPY_DISTANCE &&
  Math.abs(a.box.maxY - b.box.maxY) < COPY_DISTANCE &&
  b.samples.every((point) => nearestPoint(a.path, point).distance < COPY_DISTANCE) &&
  a.samples.every((point) => nearestPoint(b.path, point).distance < COPY_DISTANCE);

/** A closed shape no larger than a notch that lies in or on a larger outline. */
const isMark = (shape: Shape, all: readonly Shape[]): boolean =>
  sizeOf(shape) <= MARK_SIZE &&
  all.some(
    (other) =>
      other.area > shape.area &&
      sizeOf(other) > MARK_SIZE &&
      boxesMeet(other.box, shape.box, OVERLAP_DEPTH) &&
      (isInside(other.path, middleOf(shape)) ||
        shape.samples.some((point) => nearestPoint(other.path, point).distance <= OVERLAP_DEPTH)),
  );

/** Whether every place of the outer line has the inner one near. */
const isSecondLine = (outer: Shape, inner: Shape): boolean =>
  outer.samples.every((point) => nearestPoint(inner.path, point).distance <= SECOND_LINE_REACH);

/** Parts off upright rectangles that hold several outlines side by side: page frames and backgrounds. */
const withoutFrames = (shapes: readonly Shape[]): { kept: Shape[]; frames: Shape[] } => {
  const kept: Shape[] = [];
  const frames: Shape[] = [];
  for (const [at, shape] of shapes.entries()) {
    const rest = shapes.slice(at + 1);
    const within = isRectangle(shape) ? rest.filter((other) => relation(shape, other) === 'within') : [];
    const sideBySide = within.filter((a) => !within.some((b) => b.area > a.area && relation(b, a) === 'within'));
    if (sideBySide.length > 1) frames.push(shape);
    else kept.push(shape);
  }
  return { kept, frames };
};

const isRectangle = ({ box, area }: Shape): boolean => area > 0.999 * (box.maxX - box.minX) * (box.maxY - box.minY);
