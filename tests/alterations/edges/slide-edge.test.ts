import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { slideEdge, type EdgeEnds } from '../../../src/alterations/edges/slide-edge.ts';
import { pathLength } from '../../../src/geometry/arc-length.ts';
import { cornersOf } from '../../../src/geometry/corners.ts';
import { tangentOn } from '../../../src/geometry/evaluate.ts';
import { nearestPoint } from '../../../src/geometry/nearest-point.ts';
import { pathEnd, pathStart } from '../../../src/geometry/path.ts';
import { point } from '../../../src/geometry/point.ts';
import { sidesOf, type PanelSides } from '../../../src/pattern/look-up.ts';
import type { Panel } from '../../../src/pattern/panel.ts';
import { expectSound, expectSoundPanel } from '../../support/invariants.ts';
import {
  allShapes,
  corneredPanel,
  curvedPanel,
  farthestApart,
  mirrored,
  panelOf,
  patternOf,
  run,
} from '../../support/shaped-panels.ts';

const slid = (panel: Panel, which: 'top' | 'bottom', front: number, back: number): Panel => {
  const after = slideEdge(panel, which, { front, back });
  if (typeof after === 'string') throw new Error(after);
  return after;
};

const sides = (panel: Panel): PanelSides => sidesOf(panel)!;

const lengths = (panel: Panel) => ({
  front: pathLength(sides(panel).front.path),
  back: pathLength(sides(panel).back.path),
});

/** A rectangle of 100 by 300 mm, its top at -200. */
const rectangle = (): Panel =>
  panelOf({
    name: 'rectangle',
    seams: ['cf', 'cb'],
    top: run([0, -200], [100, -200]),
    back: run([100, -200], [100, 100]),
    bottom: run([100, 100], [0, 100]),
    front: run([0, 100], [0, -200]),
    levels: { waist: 0 },
  });

describe('on a rectangle', () => {
  test('the edge is the amounts themselves, one cubic flat at both ends', () => {
    const { path } = sides(slid(rectangle(), 'top', 0, 12)).top;
    for (const share of [0.1, 0.25, 0.5, 0.7]) {
      const rise = 12 * share * share * (3 - 2 * share);
      expect(nearestPoint(path, point(100 * share, -200 - rise)).distance).toBeLessThan(0.0011);
    }
    expect(pathStart(path)).toEqual(point(0, -200));
    expect(pathEnd(path)).toEqual(point(100, -212));
    expect(tangentOn(path.segments[0]!, 0).dy).toBeCloseTo(0, 9);
    expect(tangentOn(path.segments.at(-1)!, 1).dy).toBeCloseTo(0, 9);
  });

  test('it gets longer by what the integral of its own formula says', () => {
    const parts = 2000;
    const lengthOf = (u: number): number => Math.hypot(100, 12 * 6 * u * (1 - u)) / parts;
    const length = Array.from({ length: parts }, (_, i) => lengthOf((i + 0.5) / parts)).reduce((sum, l) => sum + l, 0);
    expect(pathLength(sides(slid(rectangle(), 'top', 0, 12)).top.path)).toBeCloseTo(length, 3);
  });

  test('equal amounts move it straight up or down, and it stays one line', () => {
    expect(sides(slid(rectangle(), 'top', 5, 5)).top.path).toEqual({ segments: run([0, -205], [100, -205]) });
    expect(sides(slid(rectangle(), 'bottom', -5, -5)).bottom.path).toEqual({ segments: run([100, 95], [0, 95]) });
  });

  test('a bottom goes down where its seams get longer', () => {
    const { bottom, back } = sides(slid(rectangle(), 'bottom', 0, 12));
    expect(pathStart(bottom.path)).toEqual(point(100, 112));
    expect(pathEnd(bottom.path)).toEqual(point(0, 100));
    expect(back.path).toEqual({ segments: run([100, -200], [100, 112]) });
  });
});

test('on seams that spread, every point goes away from where they would meet', () => {
  const wedge = panelOf({
    name: 'wedge',
    seams: ['cf', 'cb'],
    top: run([-50, -200], [50, -200]),
    back: run([50, -200], [25, -100]),
    bottom: run([25, -100], [-25, -100]),
    front: run([-25, -100], [-50, -200]),
    levels: { waist: -150 },
  });
  const by = 40;
  const drop = (by * 4) / Math.sqrt(17);
  const top = sides(slid(wedge, 'top', -by, -by)).top.path;
  expect(top.segments).toHaveLength(1);
  expect(pathStart(top).y).toBeCloseTo(-200 + drop, 9);
  expect(pathLength(top)).toBeCloseTo(100 - drop / 2, 9);
});

test('a curve that was cut off gets its own shape back', () => {
  const panel = curvedPanel();
  const cut = slid(panel, 'top', -15, -20);
  const back = slid(cut, 'top', 15, 20);
  for (const which of ['top', 'back', 'front'] as const) {
    expect(farthestApart(sides(back)[which].path, sides(panel)[which].path)).toBeLessThan(0.002);
  }
});

test('a seam whose end stays is the very same object, and so is a panel where nothing moves', () => {
  const panel = curvedPanel();
  expect(slideEdge(panel, 'top', { front: 0, back: 0 })).toBe(panel);
  const after = sides(slid(panel, 'top', 0, -9));
  expect(after.front).toBe(sides(panel).front);
  expect(after.bottom).toBe(sides(panel).bottom);
  expect(after.top).not.toHaveProperty('text');
  expect(after.back).not.toHaveProperty('text');
});

test('corners within the edge stay corners, and no new ones come', () => {
  for (const [front, back] of [
    [8, -6],
    [-10, 0],
    [4, 4],
  ] as const) {
    const { path } = sides(slid(corneredPanel(), 'top', front, back)).top;
    expect(cornersOf(path)).toHaveLength(1);
    const { path: curved } = sides(slid(curvedPanel(), 'top', front, back)).top;
    expect(cornersOf(curved)).toEqual([]);
  }
});

test('an amount of one’s own is kept at every share', () => {
  const hump = { value: (u: number) => 16 * u * (1 - u), slope: (u: number) => 16 - 32 * u };
  const after = slideEdge(rectangle(), 'top', { front: 0, back: 0 }, hump);
  const { path } = sides(after as Panel).top;
  for (const u of [0.2, 0.5, 0.9]) {
    expect(nearestPoint(path, point(100 * u, -200 - 16 * u * (1 - u))).distance).toBeLessThan(0.0011);
  }
});

test('more than the seam, and an edge past where its seams would meet, are refused in words', () => {
  expect(slideEdge(rectangle(), 'top', { front: 0, back: -301 })).toBe('would have nothing left of its seam cb');
  const gable = panelOf({
    name: 'gable',
    seams: ['cf', 'cb'],
    top: run([-10, -200], [10, -200]),
    back: run([10, -200], [60, 0]),
    bottom: run([60, 0], [-60, 0]),
    front: run([-60, 0], [-10, -200]),
    levels: { waist: -10 },
  });
  expect(typeof slideEdge(gable, 'top', { front: 40, back: 40 })).not.toBe('string');
  expect(slideEdge(gable, 'top', { front: 42, back: 42 })).toBe(
    'would have a top that reaches to where its seams would meet',
  );
});

const shapes = allShapes
  .flatMap((shape) => [shape(), mirrored(shape())])
  .map((panel, i) => [`${panel.name} ${i % 2}`, panel] as const);

describe.each(shapes)('on %s', (_, panel) => {
  const ends: readonly EdgeEnds[] = [
    { front: 10, back: -12.7 },
    { front: -20, back: 0 },
    { front: 12, back: 12 },
    { front: 0, back: 9 },
  ];

  test.each(['top', 'bottom'] as const)(
    'the seams at the %s change by exactly the amounts, and the panel is sound',
    (which) => {
      for (const { front, back } of ends) {
        const after = slid(panel, which, front, back);
        expectSoundPanel(bare(after));
        expect(lengths(after).front - lengths(panel).front).toBeCloseTo(front, 3);
        expect(lengths(after).back - lengths(panel).back).toBeCloseTo(back, 3);
        expect(cornersOf(sides(after)[which].path)).toHaveLength(cornersOf(sides(panel)[which].path).length);
      }
    },
  );

  test.each(['top', 'bottom'] as const)('the opposite amounts bring the %s back', (which) => {
    for (const { front, back } of ends) {
      const again = slid(slid(panel, which, front, back), which, -front, -back);
      for (const [i, { path, name }] of again.edges.entries()) {
        expect(farthestApart(path, panel.edges[i]!.path), `${name} ${front} ${back}`).toBeLessThan(0.01);
      }
    }
  });
});

/** The outline alone: marks are settled elsewhere. */
const bare = (panel: Panel): Panel => ({ ...panel, notches: [], levels: [] });

const amount = fc.integer({ min: -250, max: 250 }).map((tenths) => tenths / 10);

test('whatever the amounts, seams change by exactly them, edges gather few nodes and go back', () => {
  let worst = 0;
  fc.assert(
    fc.property(
      fc.constantFrom(...shapes.map(([, panel]) => panel)),
      fc.constantFrom('top' as const, 'bottom' as const),
      amount,
      amount,
      (panel, which, front, back) => {
        const after = slideEdge(panel, which, { front, back });
        if (typeof after === 'string') return;
        expectSound(patternOf(bare(panel)), patternOf(bare(after)));
        expect(lengths(after).front - lengths(panel).front).toBeCloseTo(front, 3);
        expect(lengths(after).back - lengths(panel).back).toBeCloseTo(back, 3);
        const again = slid(after, which, -front, -back);
        for (const [i, { path }] of again.edges.entries())
          worst = Math.max(worst, farthestApart(path, panel.edges[i]!.path));
      },
    ),
    { numRuns: 100 },
  );
  expect(worst).toBeLessThan(0.02);
});
