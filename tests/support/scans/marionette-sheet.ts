/**
 * The sheet of the example, invented: stays for a marionette, printed on the line to cut. It comes from net panels that are known
 * exactly: mates share the profile of their seam, and that has nodes at bust and waist, so that the widths there are plain sums.
 */
import { tangentOn } from '../../../src/geometry/evaluate.ts';
import { crossHorizontal } from '../../../src/geometry/intersect.ts';
import { nearestPoint } from '../../../src/geometry/nearest-point.ts';
import { offsetOutline } from '../../../src/geometry/offset-outline.ts';
import { pathEnd, pathStart, type Path } from '../../../src/geometry/path.ts';
import { distance, movePoint, point, type Point } from '../../../src/geometry/point.ts';
import { reversePath } from '../../../src/geometry/reverse-path.ts';
import { cubic, line } from '../../../src/geometry/segment.ts';
import { leftNormal, scaled, unit, type Vector } from '../../../src/geometry/vector.ts';
import { run } from '../shaped-panels.ts';
import type { ScanNotch, ScanPanel } from './scan-panels.ts';
import type { ScanSpec } from './scan-spec.ts';
import { letterStrokes } from './stroke-letters.ts';

/** Of the printed line, all round, in mm. */
export const ALLOWANCE = 10;

/** Heights in mm, down from the waist; notches are where the net seam crosses them. */
const BUST = -40;
export const NOTCHES = [-24, 20];

/** A seam from top to bottom; x is how far it swings out from a straight line through its place at the waist. */
interface Profile {
  readonly name: string;
  readonly top: readonly [x: number, y: number];
  readonly bust: number;
  readonly bottom: readonly [x: number, y: number];
}

const PROFILES: readonly Profile[] = [
  { name: 'cf', top: [0, -54], bust: 0, bottom: [0, 36] },
  { name: 'side-front', top: [4, -58], bust: 5, bottom: [4, 32] },
  { name: 'side-back', top: [3.5, -52], bust: 4.5, bottom: [3.5, 31] },
  { name: 'cb', top: [1, -56], bust: 1.5, bottom: [1.5, 34] },
];

const WAISTS = [
  { name: 'front', waist: 44 },
  { name: 'side', waist: 50 },
  { name: 'back', waist: 46 },
];

/** Net widths, by arithmetic alone. */
export const NET_WIDTHS = WAISTS.map(({ name, waist }, i) => ({
  name,
  waist,
  bust: waist + PROFILES[i]!.bust + PROFILES[i + 1]!.bust,
}));

/** From top to bottom; swings to the right, or with `way` -1 to the left. */
const seam = ({ top, bust, bottom }: Profile, x: number, way: 1 | -1): Path => {
  const at = (swing: number, y: number): [number, number] => [x + way * swing, y];
  return {
    segments: run(
      at(...top),
      [...at(0.7 * bust + 0.3 * top[0], top[1] + 5), ...at(bust, BUST - 6), ...at(bust, BUST)],
      [...at(bust, BUST + 14), ...at(0, -14), ...at(0, 0)],
      [...at(0, 12), ...at(0.6 * bottom[0], bottom[1] - 9), ...at(...bottom)],
    ),
  };
};

/** From seam to seam, square to both, so that it runs on smoothly over a seam that is sewn. */
const endEdge = (from: Point, leave: Vector, to: Point, arrive: Vector): Path => {
  const reach = distance(from, to) / 3;
  return {
    segments: [
      cubic(from, movePoint(from, scaled(unit(leave), reach)), movePoint(to, scaled(unit(arrive), -reach)), to),
    ],
  };
};

/** Square to a seam towards the back, at its top or at its bottom. */
const across = ({ segments }: Path, end: 0 | 1): Vector =>
  leftNormal(tangentOn(segments[end * (segments.length - 1)]!, end));

/** Top, seam to the back, bottom, seam to the front: clockwise, the waist at y = 0. */
const netEdges = (panel: number): readonly Path[] => {
  const front = seam(PROFILES[panel]!, 0, -1);
  const back = seam(PROFILES[panel + 1]!, WAISTS[panel]!.waist, 1);
  const top = endEdge(pathStart(front), across(front, 0), pathStart(back), across(back, 0));
  const bottom = endEdge(pathEnd(front), across(front, 1), pathEnd(back), across(back, 1));
  return [top, back, reversePath(bottom), reversePath(front)];
};

const closed = (edges: readonly Path[]): Path => ({ segments: edges.flatMap(({ segments }) => segments) });

/** The outline at a height, from left to right. */
const acrossAt = (outline: Path, y: number): [Point, Point] => {
  const [left, right] = crossHorizontal(outline, y)
    .map(({ point: at }) => at)
    .toSorted((a, b) => a.x - b.x);
  return [left!, right!];
};

/** The tick on the printed line beside a place on the net seam. */
const notchBeside = (outline: Path, net: Path, y: number): ScanNotch => {
  const { location, point: at } = crossHorizontal(net, y)[0]!;
  const outward = leftNormal(tangentOn(net.segments[location.segment]!, location.t));
  const { location: place } = nearestPoint(outline, movePoint(at, scaled(unit(outward), ALLOWANCE)));
  return { place, inside: 4, outside: 1.5 };
};

const printed = (panel: number): ScanPanel => {
  const { name, waist } = WAISTS[panel]!;
  const net = netEdges(panel);
  const edges = offsetOutline(net.map((path) => ({ path, distance: ALLOWANCE })));
  const outline = closed(edges);
  const middle = waist / 2;
  return {
    name,
    outline,
    corners: edges.map(pathStart),
    notches: [net[1]!, net[3]!]
      .filter((_, side) => panel + 1 - side > 0 && panel + 1 - side < PROFILES.length - 1)
      .flatMap((path) => NOTCHES.map((y) => notchBeside(outline, path, y))),
    grain: line(point(middle - 4, -34), point(middle - 4, 24)),
    arrows: ['start', 'end'],
    across: [BUST, 0].map((y) => line(...acrossAt(outline, y))),
    letters: letterStrokes(name.toUpperCase(), point(middle, -16), 4),
  };
};

/** Each panel with its net outline in its own places: the waist at y = 0, the front seam at x = 0 there. */
export const MARIONETTE = WAISTS.map(({ name }, panel) => ({
  name,
  seams: [PROFILES[panel]!.name, PROFILES[panel + 1]!.name] as const,
  net: netEdges(panel),
  printed: printed(panel),
}));

/** Where each panel lies on the sheet. */
const PLACES = [20, 100, 185];
const WAIST_LINE = 81;

/** The sheet on a scanner that is not quite true, before it is compressed. */
export const marionetteScan = (): ScanSpec => ({
  kind: 'line',
  dpi: 300,
  sheet: { width: 310, height: 140 },
  panels: MARIONETTE.map(({ printed: panel }, i) => ({ panel, at: point(PLACES[i]!, WAIST_LINE) })),
  square: { side: 50, at: point(250, 45) },
  turn: 1.2,
  shear: 0.002,
  scaleX: 1.013,
  scaleY: 0.992,
  lamp: { slope: 0.2, toward: 200, vignette: 0.1 },
  noise: 2.5,
  dust: 10,
  worn: { creases: 1 },
  seed: 11,
});
