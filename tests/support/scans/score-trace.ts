/**
 * How far traced panels are from the truth. Each panel is first laid on its truth by the best rigid motion, a turn and a shift: where
 * the trace puts a panel on the page is free, its size and shape are not.
 */
import { signedArea } from '../../../src/geometry/area.ts';
import { tangentOn } from '../../../src/geometry/evaluate.ts';
import { compose, rotation, translation, type Matrix } from '../../../src/geometry/matrix.ts';
import type { Path } from '../../../src/geometry/path.ts';
import { distance, type Point } from '../../../src/geometry/point.ts';
import type { Line } from '../../../src/geometry/segment.ts';
import { transformPath, transformPoint } from '../../../src/geometry/transform-path.ts';
import { magnitude, turn } from '../../../src/geometry/vector.ts';
import type { TracedPanel } from '../../../src/scan/traced.ts';
import { alignRigidly } from './align-rigidly.ts';
import { nearestOn, samplesOf } from './dense-outline.ts';
import type { TruePanel, Truth } from './lay-out.ts';

/** Lengths in millimetres; what was found in vain or not found at all is counted and left out of the lengths. */
interface Score {
  /** Of the distances square to the outline, from the trace to the truth and back. */
  readonly rms: number;
  readonly max: number;
  /** The farthest of the true corners from its nearest traced corner. */
  readonly corner: number;
  /** True corners without a traced one within 1 mm, traced corners without a true one, and corners beyond one for each true one. */
  readonly missedCorners: number;
  readonly inventedCorners: number;
  readonly doubledCorners: number;
  readonly segments: number;
  /** The farthest end of a notch, a grainline, a line across. */
  readonly notch: number;
  readonly grain: number;
  readonly waist: number;
  readonly missedMarks: number;
  readonly inventedMarks: number;
}

interface PanelScore extends Score {
  readonly name: string;
  /** Where on the sheet it is farthest off. */
  readonly worstAt: Point;
  readonly traced: TracedPanel;
}

/** The worst of every number over the panels. */
export interface TraceScore extends Score {
  readonly panels: readonly PanelScore[];
  readonly missing: readonly string[];
  readonly extra: number;
}

const STEP = 0.2;
const CORNER_TURN = (5 * Math.PI) / 180;
const SAME_CORNER = 1;
const SAME_MARK = 2;
/** Panels are the same when, the whole sheet shifted, their middles are this near. */
const SAME_PANEL = 25;

/** Nodes of a closed path where its tangent turns by more than 5 degrees. */
const sharpNodes = (path: Path): Point[] => {
  const drawn = path.segments.filter((s) => magnitude(tangentOn(s, 0)) > 0);
  return drawn
    .filter((s, i) => Math.abs(turn(tangentOn(drawn.at(i - 1)!, 1), tangentOn(s, 0))) > CORNER_TURN)
    .map((s) => s.start);
};

const centroid = (path: Path): Point => {
  const points = samplesOf(path, 1);
  return {
    x: points.reduce((sum, p) => sum + p.x, 0) / points.length,
    y: points.reduce((sum, p) => sum + p.y, 0) / points.length,
  };
};

const side = (path: Path): number => Math.sqrt(Math.abs(signedArea(path)));

const nearestOf = (p: Point, all: readonly Point[]): number => Math.min(Infinity, ...all.map((q) => distance(p, q)));

/** Which traced panel belongs to which true one: the sheet may be shifted as a whole, and turned a little. */
const matchPanels = (traced: readonly TracedPanel[], truth: readonly TruePanel[]): [number, number][] => {
  const found = traced.map((p) => ({ at: centroid(p.outline), side: side(p.outline) }));
  const real = truth.map((p) => ({ at: centroid(p.outline), side: side(p.outline) }));
  let best: { pairs: [number, number][]; gain: number } = { pairs: [], gain: 0 };
  for (const from of found) {
    for (const to of real) {
      const shift = { x: to.at.x - from.at.x, y: to.at.y - from.at.y };
      const options = found
        .flatMap((f, i) =>
          real.map((r, j) => ({
            i,
            j,
            cost: Math.hypot(r.at.x - f.at.x - shift.x, r.at.y - f.at.y - shift.y) + 2 * Math.abs(r.side - f.side),
          })),
        )
        .filter(({ cost }) => cost < SAME_PANEL)
        .toSorted((a, b) => a.cost - b.cost);
      const pairs: [number, number][] = [];
      let gain = 0;
      for (const { i, j, cost } of options) {
        if (pairs.some(([a, b]) => a === i || b === j)) continue;
        pairs.push([i, j]);
        gain += SAME_PANEL - cost;
      }
      if (gain > best.gain) best = { pairs, gain };
    }
  }
  return best.pairs;
};

const root = (sum: number, count: number): number => Math.sqrt(sum / Math.max(1, count));

/** Lines paired with their nearest; `either` lets the ends change places. */
const scoreLines = (
  traced: readonly Line[],
  truth: readonly Line[],
  either: boolean,
): { worst: number; missed: number; invented: number } => {
  const apart = (a: Line, b: Line): number => {
    const straight = Math.max(distance(a.start, b.start), distance(a.end, b.end));
    const crossed = Math.max(distance(a.start, b.end), distance(a.end, b.start));
    return either ? Math.min(straight, crossed) : straight;
  };
  const options = traced
    .flatMap((a, i) => truth.map((b, j) => ({ i, j, off: apart(a, b) })))
    .filter(({ off }) => off < SAME_MARK)
    .toSorted((a, b) => a.off - b.off);
  const pairs: typeof options = [];
  for (const one of options) if (!pairs.some(({ i, j }) => i === one.i || j === one.j)) pairs.push(one);
  return {
    worst: Math.max(0, ...pairs.map(({ off }) => off)),
    missed: truth.length - pairs.length,
    invented: traced.length - pairs.length,
  };
};

const moveLines = (lines: readonly Line[], m: Matrix): Line[] =>
  lines.map((l) => ({ ...l, start: transformPoint(l.start, m), end: transformPoint(l.end, m) }));

const scorePanel = (traced: TracedPanel, truth: TruePanel): PanelScore => {
  const toTruth = nearestOn(truth.outline);
  const raw = samplesOf(traced.outline, STEP);
  const few = raw.filter((_, i) => i % 3 === 0);
  const exact = alignRigidly(raw, toTruth, alignRigidly(few, toTruth, startFor(traced.outline, truth.outline)));
  const outline = transformPath(traced.outline, exact);
  const toTraced = nearestOn(outline);
  let [sum, max, worstAt] = [0, 0, truth.outline.segments[0]!.start];
  const look = (points: readonly Point[], nearest: typeof toTruth): void => {
    for (const p of points) {
      const { distance: off } = nearest(p.x, p.y);
      sum += off * off;
      if (off > max) [max, worstAt] = [off, p];
    }
  };
  const samples = samplesOf(truth.outline, STEP);
  look(samplesOf(outline, STEP), toTruth);
  look(samples, toTraced);
  const corners = sharpNodes(outline);
  const offs = truth.corners.map((p) => nearestOf(p, corners));
  const found = offs.filter((off) => off <= SAME_CORNER);
  const invented = corners.filter((p) => nearestOf(p, truth.corners) > SAME_CORNER).length;
  const notches = scoreLines(moveLines(traced.marks.notches, exact), truth.notches, false);
  const grain = scoreLines(moveLines(traced.marks.grain, exact), truth.grain, true);
  const across = scoreLines(moveLines(traced.marks.across, exact), truth.across, true);
  const marks = [notches, grain, across];
  return {
    name: truth.name,
    rms: root(sum, raw.length + samples.length),
    max,
    worstAt,
    corner: Math.max(0, ...found),
    missedCorners: offs.length - found.length,
    inventedCorners: invented,
    doubledCorners: Math.max(0, corners.length - invented - found.length),
    segments: traced.outline.segments.length,
    notch: notches.worst,
    grain: grain.worst,
    waist: across.worst,
    missedMarks: marks.reduce((n, m) => n + m.missed, 0),
    inventedMarks: marks.reduce((n, m) => n + m.invented, 0),
    traced,
  };
};

/** The middles laid on each other, with the best of a few turns. */
const startFor = (traced: Path, truth: Path): Matrix => {
  const nearest = nearestOn(truth);
  const samples = samplesOf(traced, 4);
  const [from, to] = [centroid(traced), centroid(truth)];
  const starts = [-8, -6, -4, -2, 0, 2, 4, 6, 8].map((degrees) =>
    compose(translation(to.x, to.y), compose(rotation((degrees * Math.PI) / 180), translation(-from.x, -from.y))),
  );
  const off = (m: Matrix): number =>
    samples.reduce((sum, p) => {
      const q = transformPoint(p, m);
      return sum + nearest(q.x, q.y).distance ** 2;
    }, 0);
  return starts.map((m) => ({ m, off: off(m) })).reduce((a, b) => (b.off < a.off ? b : a)).m;
};

/** The score of what was traced, in millimetres, against the truth of the scan it was traced from. */
export const scoreTrace = (traced: readonly TracedPanel[], truth: Pick<Truth, 'panels'>): TraceScore => {
  const pairs = matchPanels(traced, truth.panels);
  const panels = pairs.toSorted((a, b) => a[1] - b[1]).map(([i, j]) => scorePanel(traced[i]!, truth.panels[j]!));
  const worst = (of: (p: PanelScore) => number): number => Math.max(0, ...panels.map(of));
  const total = (of: (p: PanelScore) => number): number => panels.reduce((sum, p) => sum + of(p), 0);
  return {
    panels,
    missing: truth.panels.filter((_, j) => !pairs.some(([, b]) => b === j)).map(({ name }) => name),
    extra: traced.length - pairs.length,
    rms: worst((p) => p.rms),
    max: worst((p) => p.max),
    corner: worst((p) => p.corner),
    missedCorners: total((p) => p.missedCorners),
    inventedCorners: total((p) => p.inventedCorners),
    doubledCorners: total((p) => p.doubledCorners),
    segments: worst((p) => p.segments),
    notch: worst((p) => p.notch),
    grain: worst((p) => p.grain),
    waist: worst((p) => p.waist),
    missedMarks: total((p) => p.missedMarks),
    inventedMarks: total((p) => p.inventedMarks),
  };
};
