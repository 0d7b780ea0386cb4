/**
 * Closed contours made into panels that can be scored, with every help that the truth can give to a tracer that knows nothing of
 * panels: which contour is which panel; of an ink line the middle between its outer and inner contours, place by place; at every true
 * place the tracer's nearest place; and where a notch or a line across meets the outline, the truth itself.
 */
import { signedArea } from '../../src/geometry/area.ts';
import { pathBox, type Box } from '../../src/geometry/box.ts';
import type { Path } from '../../src/geometry/path.ts';
import { between, distance, point, type Point } from '../../src/geometry/point.ts';
import { line } from '../../src/geometry/segment.ts';
import { transformPath, transformPoint } from '../../src/geometry/transform-path.ts';
import type { Matrix } from '../../src/geometry/matrix.ts';
import type { TracedPanel } from '../../src/scan/traced.ts';
import { alignRigidly } from '../../tests/support/scans/align-rigidly.ts';
import { nearestOn, samplesOf, type Foot } from '../../tests/support/scans/dense-outline.ts';
import type { Truth, TruePanel } from '../../tests/support/scans/lay-out.ts';

/** A panel's outline as a polygon, and how many segments the tracer drew round it. */
export interface PeerPanel {
  readonly panel: TracedPanel;
  readonly segments: number;
}

type Nearest = (x: number, y: number) => Foot;

const STEP = 0.1;
/** Nearer than this to a mark's end on the outline, the truth stands in; a V cut is 3 mm wide. */
const MARK_REACH = 3;
/** The area of the outer contour of an ink line is larger than its panel by so much at most. */
const AREA = 0.12;
/** Contours in and round a panel are parts of it from this share of its area on. */
const PART = 0.03;
/** Ticks reach out of the panel by less than this. */
const BESIDE = 6;
/** Outer and inner contour of a line are no farther apart than this, in line widths, even in a corner. */
const WIDEST = 4;
/** An outline that misses a true place by more than this is not closed. */
const LOST = 1;

/** The panels that were found among the contours, which `toSheet` brings to the millimetres of the truth but for a slight turn and shift. */
export const peerPanels = (contours: readonly Path[], toSheet: Matrix, truth: Truth): PeerPanel[] => {
  const placed = contours.map((path) => {
    const outline = transformPath(path, toSheet);
    return { outline, area: Math.abs(signedArea(outline)), box: pathBox(outline) };
  });
  return truth.panels.flatMap((panel): PeerPanel[] => {
    const area = Math.abs(signedArea(panel.outline));
    const box = pathBox(panel.outline);
    const here = placed.filter((c) => c.area > PART * area && c.area < (1 + AREA) * area && isWithin(c.box, box));
    const [first, ...others] = here.toSorted((a, b) => b.area - a.area).map(({ outline }) => outline);
    if (first === undefined) return [];
    // A line right across a piece cuts it in two, which is taken for no fault.
    const drawn = truth.kind === 'cutout' ? [first, ...others] : [first];
    const traced = truth.kind === 'cutout' ? drawn : inkMiddle(first, others, truth.lineWidth);
    const helped = helpedOutline(traced.map(nearestOn), panel);
    if (helped === undefined) return [];
    return [{ panel: bare(helped), segments: drawn.reduce((sum, path) => sum + path.segments.length, 0) }];
  });
};

/** How far the true corners are from an outline that lies on them. */
export const cornersOff = (outline: Path, { corners }: TruePanel): number => {
  const nearest = nearestOn(outline);
  return Math.max(...corners.map(({ x, y }) => nearest(x, y).distance));
};

const isWithin = (inner: Box, outer: Box): boolean =>
  inner.minX > outer.minX - BESIDE &&
  inner.minY > outer.minY - BESIDE &&
  inner.maxX < outer.maxX + BESIDE &&
  inner.maxY < outer.maxY + BESIDE;

/**
 * Half-way from each place of the outer contour to the nearest of the inner ones, exact along straight lines and where the panel's
 * corners stand out; and the other way round, exact where they stand in.
 */
const inkMiddle = (outer: Path, inner: readonly Path[], width: number): Path[] => [
  ...halfWay(outer, inner, width),
  ...inner.flatMap((path) => halfWay(path, [outer], width)),
];

const halfWay = (from: Path, to: readonly Path[], width: number): Path[] => {
  const nearest = nearestOfAll(to.map(nearestOn));
  const middles = samplesOf(from, STEP).flatMap(({ x, y }) => {
    const foot = nearest(x, y);
    return foot.distance < WIDEST * width ? [between(point(x, y), point(foot.x, foot.y), 1 / 2)] : [];
  });
  return middles.length < 3 ? [] : [polygon(middles)];
};

const nearestOfAll =
  (looks: readonly Nearest[]): ((x: number, y: number) => Pick<Foot, 'x' | 'y' | 'distance'>) =>
  (x, y) =>
    looks
      .map((look) => look(x, y))
      .reduce<Pick<Foot, 'x' | 'y' | 'distance'>>((a, b) => (b.distance < a.distance ? b : a), {
        distance: Infinity,
        x,
        y,
      });

const polygon = (points: readonly Point[]): Path => ({
  segments: points.map((p, i) => line(p, points[(i + 1) % points.length]!)),
});

/** Undefined where the outline does not go all round. */
const helpedOutline = (traced: readonly Nearest[], truth: TruePanel): Path | undefined => {
  const marks = [...truth.notches.map(({ start }) => start), ...truth.across.flatMap(({ start, end }) => [start, end])];
  const nearest = nearestOfAll(traced);
  const places = samplesOf(truth.outline, STEP).map((at) => {
    const foot = nearest(at.x, at.y);
    const isMarked = marks.some((mark) => distance(mark, at) < MARK_REACH);
    return { at, isMarked, off: foot.distance, foot: point(foot.x, foot.y) };
  });
  const own = places.filter(({ isMarked }) => !isMarked);
  if (traced.length === 0 || own.every(({ off }) => off > LOST)) return undefined;
  const motion = alignRigidly(
    own.filter(({ off }) => off < LOST).map(({ foot }) => foot),
    nearestOn(truth.outline),
  );
  const moved = own.map(({ at, foot }) => distance(at, transformPoint(foot, motion)));
  if (Math.max(...moved) > LOST) return undefined;
  return polygon(places.map(({ at, isMarked, foot }) => (isMarked ? at : transformPoint(foot, motion))));
};

const bare = (outline: Path): TracedPanel => ({
  outline,
  within: [],
  marks: { notches: [], grain: [], across: [], art: [] },
  corners: [],
  unseen: [],
  spread: 0,
  bridged: 0,
});
