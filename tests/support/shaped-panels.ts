/** Net panels of many shapes for alteration and measuring tests; y = 0 is the waist. */

import { cubic, line, type Segment } from '../../src/geometry/segment.ts';
import { movePoint, type Point } from '../../src/geometry/point.ts';
import { pointOn, tangentOn } from '../../src/geometry/evaluate.ts';
import { nearestPoint } from '../../src/geometry/nearest-point.ts';
import type { Path } from '../../src/geometry/path.ts';
import { leftNormal, scaled } from '../../src/geometry/vector.ts';
import { chordAt } from '../../src/pattern/chord.ts';
import type { Edge, Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';

type Pair = readonly [number, number];

const pointAt = ([x, y]: Pair): Point => ({ x, y });

/** A run of segments from SVG-like steps: two numbers a line, six a cubic. */
export const run = (start: Pair, ...steps: readonly (readonly number[])[]): Segment[] => {
  let from = pointAt(start);
  return steps.map((step) => {
    const [a, b, c, d, e, f] = step as [number, number, number, number, number, number];
    const segment =
      step.length === 2 ? line(from, pointAt([a, b])) : cubic(from, pointAt([a, b]), pointAt([c, d]), pointAt([e, f]));
    from = segment.end;
    return segment;
  });
};

export interface PanelShape {
  readonly name: string;
  readonly seams: readonly [front: string, back: string];
  readonly top: readonly Segment[];
  readonly back: readonly Segment[];
  readonly bottom: readonly Segment[];
  readonly front: readonly Segment[];
  readonly levels: Readonly<Record<string, number>>;
}

const drawnEdge = (name: string, segments: readonly Segment[]): Edge => ({
  name,
  path: { segments },
  text: `as drawn: ${name}`,
});

/** A panel with its levels drawn from edge to edge; every edge carries a text, as if read from a sheet. */
export const panelOf = (shape: PanelShape): Panel => {
  const bare: Panel = {
    name: shape.name,
    line: 'stitching',
    edges: [
      drawnEdge('top', shape.top),
      drawnEdge(shape.seams[1], shape.back),
      drawnEdge('bottom', shape.bottom),
      drawnEdge(shape.seams[0], shape.front),
    ],
    levels: [],
    notches: [],
    bones: [],
  };
  const levels = Object.entries(shape.levels).map(([name, y]) => {
    const chord = chordAt(bare, y);
    if (!chord) throw new Error(`${shape.name} does not reach ${name}`);
    return { name, y, fromX: chord.fromX, toX: chord.toX };
  });
  return { ...bare, levels };
};

export const patternOf = (...panels: readonly Panel[]): Pattern => ({
  name: 'Shapes',
  pieces: 'pairs',
  units: 'mm',
  panels,
});

const LEVELS = { bust: -170, underbust: -100, waist: 0, 'high-hip': 80, hip: 150 };

/** Straight edges throughout, top and bottom level. */
export const straightPanel = (name = 'straight', seams: readonly [string, string] = ['cf', 'cb']): Panel =>
  panelOf({
    name,
    seams,
    top: run([0, -200], [100, -200]),
    back: run([100, -200], [80, 0], [105, 180]),
    bottom: run([105, 180], [-5, 180]),
    front: run([-5, 180], [10, 0], [0, -200]),
    levels: LEVELS,
  });

/** Curved seams with a tight waist, a curved top, a sloping bottom: the ordinary panel. */
export const curvedPanel = (name = 'curved', seams: readonly [string, string] = ['cf', 'cb']): Panel =>
  panelOf({
    name,
    seams,
    top: run([0, -200], [30, -212, 70, -215, 104, -190]),
    back: run([104, -190], [100, -120, 78, -60, 76, 0], [74, 60, 98, 110, 112, 175]),
    bottom: run([112, 175], [60, 185, 30, 190, -8, 186]),
    front: run([-8, 186], [-4, 120, 8, 60, 10, 0], [12, -60, -6, -120, 0, -200]),
    levels: LEVELS,
  });

/** The whole panel leans, so that its seams run far from the grain. */
const tiltedPanel = (name = 'tilted', seams: readonly [string, string] = ['cf', 'cb']): Panel =>
  panelOf({
    name,
    seams,
    top: run([60, -190], [90, -205, 130, -200, 160, -185]),
    back: run([160, -185], [120, -100, 100, -50, 75, 0], [45, 60, 20, 110, 0, 185]),
    bottom: run([0, 185], [-80, 185]),
    front: run([-80, 185], [0, 0], [60, -190]),
    levels: LEVELS,
  });

/** The back seam swings like an S and turns back upwards at its middle, so it crosses some levels three times. */
export const swingingPanel = (name = 'swinging', seams: readonly [string, string] = ['cf', 'cb']): Panel =>
  panelOf({
    name,
    seams,
    top: run([0, -200], [120, -200]),
    back: run([120, -200], [180, -120, 180, 40, 130, 30], [100, 24, 96, -20, 85, -20], [70, -20, 60, 100, 110, 180]),
    bottom: run([110, 180], [0, 180]),
    front: run([0, 180], [20, 60, -20, -60, 0, -200]),
    levels: LEVELS,
  });

/** Both seams have corners of their own, and the top is a point. */
export const corneredPanel = (name = 'cornered', seams: readonly [string, string] = ['cf', 'cb']): Panel =>
  panelOf({
    name,
    seams,
    top: run([0, -200], [50, -230], [110, -190]),
    back: run([110, -190], [90, -60], [84, -20, 84, 20, 90, 60], [120, 100], [112, 180]),
    bottom: run([112, 180], [60, 205], [4, 180]),
    front: run([4, 180], [-4, 90], [14, 20], [4, -120], [0, -200]),
    levels: LEVELS,
  });

export const allShapes: readonly (() => Panel)[] = [
  () => straightPanel(),
  () => curvedPanel(),
  () => tiltedPanel(),
  () => swingingPanel(),
  () => corneredPanel(),
];

/** A half pattern of four curved panels, alike but side by side: seams cf, front-side, side, side-back, cb. */
export const halfPattern = (): Pattern =>
  patternOf(
    curvedPanel('front', ['cf', 'front-side']),
    mirrored(curvedPanel('side-front', ['front-side', 'side'])),
    curvedPanel('side-back', ['side', 'side-back']),
    mirrored(curvedPanel('back', ['side-back', 'cb'])),
  );

const flipPoint = (p: Point): Point => ({ x: 100 - p.x, y: p.y });

const flipped = (segments: readonly Segment[]): Segment[] =>
  segments
    .toReversed()
    .map((s) =>
      s.kind === 'line'
        ? line(flipPoint(s.end), flipPoint(s.start))
        : cubic(flipPoint(s.end), flipPoint(s.endHandle), flipPoint(s.startHandle), flipPoint(s.start)),
    );

/** The panel seen from its other side: what was its front edge is now its back edge; the names of the seams stay in their places. */
export const mirrored = (panel: Panel): Panel => {
  const [top, back, bottom, front] = panel.edges.map((edge) => edge.path.segments);
  return panelOf({
    name: panel.name,
    seams: [panel.edges[3]!.name, panel.edges[1]!.name],
    top: flipped(top!),
    back: flipped(front!),
    bottom: flipped(bottom!),
    front: flipped(back!),
    levels: Object.fromEntries(panel.levels.map(({ name, y }) => [name, y])),
  });
};

/** The panel with a notch of 6 mm, drawn along the normal, halfway along the first segment of every edge. */
export const withNotches = (panel: Panel): Panel => ({
  ...panel,
  notches: panel.edges.map(({ name, path }) => {
    const segment = path.segments[0]!;
    const at = pointOn(segment, 1 / 2);
    const inner = movePoint(at, scaled(leftNormal(tangentOn(segment, 1 / 2)), -6));
    return { edge: name, at, inner };
  }),
});

/** The largest distance of either path from the other, looked at densely. */
export const farthestApart = (a: Path, b: Path): number =>
  Math.max(
    ...[[a, b] as const, [b, a] as const].flatMap(([from, to]) =>
      from.segments.flatMap((segment) =>
        Array.from({ length: 33 }, (_, i) => nearestPoint(to, pointOn(segment, i / 32)).distance),
      ),
    ),
  );
