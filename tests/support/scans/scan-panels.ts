/** Panels whose outlines are known exactly, for scans that are made up: small, but with every kind of corner and seam. */
import { pointOn, tangentOn } from '../../../src/geometry/evaluate.ts';
import type { Location, Path } from '../../../src/geometry/path.ts';
import { movePoint, point, type Point } from '../../../src/geometry/point.ts';
import { line, type Line } from '../../../src/geometry/segment.ts';
import { leftNormal, scaled } from '../../../src/geometry/vector.ts';
import { run } from '../shaped-panels.ts';
import { letterStrokes } from './stroke-letters.ts';

/** A notch: where it lies, how far its tick runs in and out; a cut-out has a V of depth `inside` there. */
export interface ScanNotch {
  readonly place: Location;
  readonly inside: number;
  readonly outside: number;
  /** A triangle instead of a tick, as high as `inside`, on a base this wide along the outline; it may point outwards. */
  readonly triangle?: { readonly base: number; readonly isFilled: boolean; readonly isOutside: boolean };
}

export interface ScanPanel {
  readonly name: string;
  /** Closed, clockwise on paper, millimetres. */
  readonly outline: Path;
  /** Everywhere the outline turns at once, in order; each is the start of a segment. */
  readonly corners: readonly Point[];
  readonly notches: readonly ScanNotch[];
  /** From top to bottom. */
  readonly grain: Line;
  readonly arrows: readonly ('start' | 'end')[];
  /** Arrow heads are filled, not two barbs. */
  readonly filled?: boolean;
  /** From the outline on the left to the outline on the right. */
  readonly across: readonly Line[];
  readonly letters: readonly (readonly Point[])[];
}

type Pair = readonly [number, number];

interface PanelPlan {
  readonly name: string;
  readonly start: Pair;
  readonly steps: readonly (readonly number[])[];
  /** The numbers of the segments that start in a corner. */
  readonly corners: readonly number[];
  readonly notches: readonly (readonly [segment: number, t: number, inside: number, outside: number])[];
  readonly grain: readonly [Pair, Pair];
  readonly arrows: readonly ('start' | 'end')[];
  /** From one place on the outline to another, as segment and parameter. */
  readonly across: readonly (readonly [from: Pair, to: Pair])[];
  readonly letters: readonly (readonly [word: string, at: Pair, height: number])[];
}

const panelFrom = (plan: PanelPlan): ScanPanel => {
  const outline = { segments: run(plan.start, ...plan.steps) };
  const on = ([segment, t]: Pair): Point => pointOn(outline.segments[segment]!, t);
  return {
    name: plan.name,
    outline,
    corners: plan.corners.map((segment) => on([segment, 0])),
    notches: plan.notches.map(([segment, t, inside, outside]) => ({ place: { segment, t }, inside, outside })),
    grain: line(point(...plan.grain[0]), point(...plan.grain[1])),
    arrows: plan.arrows,
    across: plan.across.map(([from, to]) => line(on(from), on(to))),
    letters: plan.letters.flatMap(([word, at, height]) => letterStrokes(word, point(...at), height)),
  };
};

/** Where a notch starts on the outline and where its inner end lies. */
export const notchLine = (outline: Path, { place, inside }: ScanNotch): Line => {
  const segment = outline.segments[place.segment]!;
  const at = pointOn(segment, place.t);
  return line(at, movePoint(at, scaled(leftNormal(tangentOn(segment, place.t)), -inside)));
};

/** Curved top, a seam that bulges and then hollows in three smooth pieces, a straight front, a corner of 154 degrees at the bottom. */
export const FRONT: ScanPanel = panelFrom({
  name: 'front',
  start: [0, -60],
  steps: [
    [12, -70, 26, -70, 40, -62],
    [45, -46, 48, -22, 39, -6],
    [34.5, 2, 35.5, 13, 40, 24],
    [42.475, 30.05, 46, 40, 47, 50],
    [24, 56],
    [0, 51],
    [0, -60],
  ],
  corners: [0, 1, 4, 5, 6],
  notches: [
    [1, 0.45, 4, 2],
    [3, 0.4, 4, 2],
    [6, 0.7, 3, 3],
  ],
  grain: [
    [14, -46],
    [12, 36],
  ],
  arrows: ['start', 'end'],
  across: [
    [
      [6, 0.45],
      [2, 0.25],
    ],
  ],
  letters: [
    ['F1', [22, -40], 7],
    ['CUT2', [18, 18], 4],
  ],
});

/** An acute corner of 45 degrees, a smooth change from curve to straight, a seam like an S. */
export const SIDE_FRONT: ScanPanel = panelFrom({
  name: 'side-front',
  start: [0, -40],
  steps: [
    [10, -42, 22, -54.2, 34, -62],
    [31.1, -48.3, 40, -30, 38, -12],
    [37, -3, 34, 6, 34, 14],
    [34, 46],
    [24, 51, 12, 51, 2, 45],
    [4, 30, 10, 16, 9, 0],
    [8.4, -9.6, -4, -24, 0, -40],
  ],
  corners: [0, 1, 4, 5],
  notches: [
    [1, 0.6, 4, 2],
    [3, 0.6, 6, 0],
    [6, 0.5, 4, 2],
    [4, 0.35, 4, 2],
  ],
  grain: [
    [22, -36],
    [21, 36],
  ],
  arrows: ['end'],
  across: [
    [
      [5, 0.9],
      [2, 0.6],
    ],
  ],
  letters: [['S2', [24.5, -24], 4.5]],
});

/** A corner that points inwards, hollow seams, a straight bottom. */
export const SIDE: ScanPanel = panelFrom({
  name: 'side',
  start: [0, -34],
  steps: [
    [16, -28],
    [33, -38],
    [29, -20, 25, -10, 26, 2],
    [27, 14, 33, 24, 36, 40],
    [-2, 42],
    [-1, 28, 5, 16, 6, 4],
    [6.8, -5.6, 2, -20, 0, -34],
  ],
  corners: [0, 1, 2, 4, 5],
  notches: [
    [3, 0.5, 4, 2],
    [6, 0.6, 4, 2],
  ],
  grain: [
    [16, -16],
    [16, 32],
  ],
  arrows: ['start'],
  across: [
    [
      [5, 0.8],
      [3, 0.15],
    ],
  ],
  letters: [['S3', [17.8, -8], 3.5]],
});

/** Long hollow and bulging edges with straight ends, its grain aslant, no line across. */
export const BASQUE: ScanPanel = panelFrom({
  name: 'basque',
  start: [0, 0],
  steps: [
    [20, -14, 60, -16, 86, 2],
    [78, 34],
    [60, 22, 28, 22, 10, 36],
    [0, 0],
  ],
  corners: [0, 1, 2, 3],
  notches: [
    [0, 0.35, 4, 2],
    [0, 0.7, 4, 2],
    [2, 0.5, 4, 2],
  ],
  grain: [
    [56, 2],
    [25, 22],
  ],
  arrows: ['start', 'end'],
  across: [],
  letters: [['B4', [60, 8], 6]],
});

/** Four straight edges, two tips of 44 and 46 degrees. */
export const GUSSET: ScanPanel = panelFrom({
  name: 'gusset',
  start: [12, 0],
  steps: [
    [24, 30],
    [12, 58],
    [0, 30],
    [12, 0],
  ],
  corners: [0, 1, 2, 3],
  notches: [[0, 0.6, 4, 2]],
  grain: [
    [12, 14],
    [12, 44],
  ],
  arrows: ['start', 'end'],
  across: [],
  letters: [],
});

export const ALL_PANELS: readonly ScanPanel[] = [FRONT, SIDE_FRONT, SIDE, BASQUE, GUSSET];
