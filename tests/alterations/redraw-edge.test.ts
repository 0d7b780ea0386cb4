import { describe, expect, test } from 'vitest';
import { redrawEdge, type RedrawnEdge } from '../../src/alterations/redraw-edge.ts';
import type { RedrawEdge } from '../../src/alterations/redraw-edge-options.ts';
import { pathLength } from '../../src/geometry/arc-length.ts';
import { tangentOn } from '../../src/geometry/evaluate.ts';
import { nearestPoint } from '../../src/geometry/nearest-point.ts';
import { pathEnd, pathStart } from '../../src/geometry/path.ts';
import { point } from '../../src/geometry/point.ts';
import { turn } from '../../src/geometry/vector.ts';
import { backEdge, bottomEdge, frontEdge, topEdge } from '../../src/pattern/look-up.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { caught } from '../support/caught.ts';
import { halfPattern as bodice } from '../support/half-pattern.ts';
import { expectSound } from '../support/invariants.ts';
import {
  curvedPanel,
  halfPattern,
  panelOf,
  patternOf,
  run,
  straightPanel,
  withNotches,
} from '../support/shaped-panels.ts';

const top = (at: Readonly<Record<string, number>>): RedrawEdge => ({
  edge: 'top',
  at: Object.entries(at).map(([seam, amount]) => ({ seam, amount })),
});

const bottom = (at: Readonly<Record<string, number>>): RedrawEdge => ({ ...top(at), edge: 'bottom' });

const WIDTHS = [60, 90, 40, 110, 75];
const SEAMS = ['cf', 'a', 'side', 'b', 'c', 'cb'];

/** A rectangle from x = 0 to `width`, 300 mm high, its waist at 0. */
const box = (name: string, seams: readonly [string, string], width: number): Panel =>
  panelOf({
    name,
    seams,
    top: run([0, -200], [width, -200]),
    back: run([width, -200], [width, 100]),
    bottom: run([width, 100], [0, 100]),
    front: run([0, 100], [0, -200]),
    levels: { bust: -150, waist: 0 },
  });

/** Five boxes of different widths: laid end to end, their top is one straight line of 375 mm. */
const boxes = (): Pattern => patternOf(...WIDTHS.map((width, i) => box(`p${i}`, [SEAMS[i]!, SEAMS[i + 1]!], width)));

/** How far the line of boxes rose at a distance from centre front. */
const riseAt = (pattern: Pattern, x: number): number => {
  let from = 0;
  for (const [i, width] of WIDTHS.entries()) {
    if (x <= from + width || i === WIDTHS.length - 1) {
      const { path } = topEdge(pattern.panels[i]!);
      let [high, low] = [0, 1];
      for (let step = 0; step < 60; step += 1) {
        const middle = (high + low) / 2;
        if (nearestAlong(path, middle).x < x - from) high = middle;
        else low = middle;
      }
      return -200 - nearestAlong(path, high).y;
    }
    from += width;
  }
  return 0;
};

const nearestAlong = (path: ReturnType<typeof topEdge>['path'], share: number) => {
  const at = Math.min(share * path.segments.length, path.segments.length - 1e-9);
  const segment = path.segments[Math.floor(at)]!;
  const t = at - Math.floor(at);
  if (segment.kind === 'line') {
    return point(
      segment.start.x + (segment.end.x - segment.start.x) * t,
      segment.start.y + (segment.end.y - segment.start.y) * t,
    );
  }
  const mix = (key: 'x' | 'y'): number =>
    (1 - t) ** 3 * segment.start[key] +
    3 * (1 - t) ** 2 * t * segment.startHandle[key] +
    3 * (1 - t) * t * t * segment.endHandle[key] +
    t ** 3 * segment.end[key];
  return point(mix('x'), mix('y'));
};

/** Seam lengths after less before, by seam, of every edge. */
const grown = ({ change }: RedrawnEdge): Record<string, number[]> =>
  Object.fromEntries(change.seams.map(({ seam, edges }) => [seam, edges.map(({ before, after }) => after - before)]));

/** The turn of the top line across a seam: what the two inside angles lack of 180 degrees, measured against the seam. */
const bend = (pattern: Pattern, index: number): number => {
  const [left, right] = [pattern.panels[index]!, pattern.panels[index + 1]!];
  const arriving = turn(
    tangentOn(backEdge(left).path.segments[0]!, 0),
    tangentOn(topEdge(left).path.segments.at(-1)!, 1),
  );
  const leaving = turn(
    tangentOn(frontEdge(right).path.segments.at(-1)!, 1),
    tangentOn(topEdge(right).path.segments[0]!, 0),
  );
  return ((arriving - leaving) * 180) / Math.PI + 180;
};

/** A turn brought to (-180, 180]. */
const inHalves = (degrees: number): number => degrees - 360 * Math.round(degrees / 360);

describe('on boxes', () => {
  test('amounts at seams, the blend between them, and seam lengths are exact', () => {
    const moved = redrawEdge(boxes(), top({ cf: 0, side: 10, cb: -6 }));
    expect(pathStart(topEdge(moved.pattern.panels[2]!).path)).toEqual(point(0, -210));
    expect(pathEnd(topEdge(moved.pattern.panels[4]!).path)).toEqual(point(75, -194));
    expect(grown(moved)['side']).toEqual([10, 10]);
    expect(grown(moved)['cb']).toEqual([-6]);
    expect(grown(moved)['cf']).toEqual([0]);
    const part = 60 / 150;
    const rise = 10 * part * part * (3 - 2 * part);
    for (const by of grown(moved)['a']!) expect(by).toBeCloseTo(rise, 6);
    for (const x of [20, 60, 100, 149]) {
      const share = x / 150;
      expect(riseAt(moved.pattern, x)).toBeCloseTo(10 * share * share * (3 - 2 * share), 2);
    }
  });

  test('the hump has its one height at the seam named, and rises and falls steadily', () => {
    const moved = redrawEdge(boxes(), top({ cf: 0, side: 10, cb: 0 })).pattern;
    const rises = Array.from({ length: 376 }, (_, x) => riseAt(moved, x));
    const steps = rises.slice(1).map((rise, x) => (rise - rises[x]!) * (x < 150 ? 1 : -1));
    expect(Math.min(...steps)).toBeGreaterThan(-0.002);
    expect(Math.max(...rises)).toBeCloseTo(10, 3);
  });

  test('no corner is made at any seam, and the line meets both centres at right angles as it did', () => {
    const moved = redrawEdge(boxes(), top({ a: 3, side: 10, c: -8, cb: -9 })).pattern;
    for (const i of [0, 1, 2, 3]) expect(inHalves(bend(moved, i))).toBeCloseTo(0, 2);
    expect(tangentOn(topEdge(moved.panels[0]!).path.segments[0]!, 0).dy).toBeCloseTo(0, 9);
    expect(tangentOn(topEdge(moved.panels[4]!).path.segments.at(-1)!, 1).dy).toBeCloseTo(0, 9);
  });

  test('an end that is not named stays; between two seams that stay so does all', () => {
    const pattern = boxes();
    const moved = redrawEdge(pattern, top({ side: 0, cb: -12 }));
    expect(moved.pattern.panels[0]).toBe(pattern.panels[0]);
    expect(moved.pattern.panels[1]).toBe(pattern.panels[1]);
    expect(moved.change.edges.map(({ panel, edge }) => `${panel} ${edge}`)).toEqual([
      'p2 top',
      'p2 b',
      'p3 top',
      'p3 c',
      'p3 b',
      'p4 top',
      'p4 cb',
      'p4 c',
    ]);
    expect(redrawEdge(pattern, top({ cb: -12 })).change.seams[0]).toMatchObject({
      seam: 'cf',
      raised: 0,
      named: false,
    });
  });

  test('the same amount everywhere moves the line as it is', () => {
    const moved = redrawEdge(boxes(), top({ cf: 8, cb: 8 })).pattern;
    for (const [i, panel] of moved.panels.entries()) {
      expect(topEdge(panel).path).toEqual({ segments: run([0, -208], [WIDTHS[i]!, -208]) });
    }
  });

  test('raising a bottom makes its seams shorter', () => {
    const moved = redrawEdge(boxes(), bottom({ cf: -15, side: 0, cb: 6 }));
    expect(grown(moved)).toMatchObject({ cf: [15], side: [0, 0], cb: [-6] });
    expect(pathEnd(bottomEdge(moved.pattern.panels[0]!).path)).toEqual(point(0, 115));
    expect(pathStart(bottomEdge(moved.pattern.panels[4]!).path)).toEqual(point(75, 94));
  });

  test('the length of the line is told round the body', () => {
    const { change } = redrawEdge(boxes(), top({ cf: 8, cb: 8 }));
    expect(change.line).toEqual({ before: 750, after: 750 });
  });
});

const slanted = (name: string, seams: readonly [string, string]): Panel =>
  panelOf({
    name,
    seams,
    top: run([-30, -200], [80, -210]),
    back: run([80, -210], [60, 100]),
    bottom: run([60, 100], [0, 100]),
    front: run([0, 100], [-30, -200]),
    levels: { waist: 0 },
  });

test('slanted seams get longer by exactly the amount, both edges alike', () => {
  const pattern = patternOf(slanted('one', ['cf', 'side']), slanted('two', ['side', 'cb']));
  const moved = redrawEdge(pattern, top({ side: 12, cb: -4 }));
  expect(grown(moved)['side']![0]).toBeCloseTo(12, 6);
  expect(grown(moved)['side']![1]).toBeCloseTo(12, 6);
  expect(grown(moved)['cb']![0]).toBeCloseTo(-4, 6);
  expect(pathStart(backEdge(moved.pattern.panels[0]!).path).x).toBeCloseTo(80 + (12 * 20) / Math.hypot(20, 310), 6);
  expectSound(pattern, moved.pattern);
});

test.each([
  ['shaped', halfPattern(), { side: 10 }],
  ['shaped', halfPattern(), { side: 0, cb: -12.7 }],
  ['bodice', bodice(), { side: 10 }],
  ['bodice', bodice(), { cf: 12, side: -8, cb: 5 }],
])('across the seams of a %s pattern the two angles come to what they were', (_, pattern, at) => {
  for (const what of [top(at)]) {
    const moved = redrawEdge(pattern, what);
    expectSound(pattern, moved.pattern);
    for (let i = 0; i + 1 < pattern.panels.length; i += 1) {
      expect(Math.abs(inHalves(bend(moved.pattern, i) - bend(pattern, i)))).toBeLessThan(0.01);
    }
    for (const [one = 0, other = one] of Object.values(grown(moved))) expect(one).toBeCloseTo(other, 3);
    for (const { before, after } of moved.change.girth) expect(after).toBeCloseTo(before, 9);
  }
});

test('left and right are laid out each for itself', () => {
  const sided = (side: 'left' | 'right'): Panel[] =>
    boxes().panels.map((panel) => ({ ...panel, name: `${panel.name}-${side}`, side }));
  const pattern: Pattern = { ...boxes(), pieces: 'single', panels: [...sided('left'), ...sided('right')] };
  const moved = redrawEdge(pattern, top({ side: 10 }));
  const pairs = redrawEdge(boxes(), top({ side: 10 }));
  expect(moved.change.seams.map(({ raised }) => raised)).toEqual(
    [...pairs.change.seams, ...pairs.change.seams].map(({ raised }) => raised),
  );
  expect(moved.change.seams.map(({ side }) => side)).toEqual(SEAMS.map(() => 'left').concat(SEAMS.map(() => 'right')));
  expect(moved.change.line).toEqual(pairs.change.line);
  for (const [i, panel] of pairs.pattern.panels.entries()) {
    expect(moved.pattern.panels[i]!.edges).toEqual(panel.edges);
    expect(moved.pattern.panels[i + 5]!.edges).toEqual(panel.edges);
  }
});

test('a notch on the redrawn edge goes along with its place, one on a seam stays', () => {
  const pattern = patternOf(withNotches(box('one', ['cf', 'cb'], 100)));
  const [notch, ...others] = redrawEdge(pattern, top({ cb: 20 })).pattern.panels[0]!.notches;
  expect(notch!.at.x).toBeCloseTo(50, 2);
  expect(notch!.at.y).toBeCloseTo(-210, 2);
  expect(
    nearestPoint(topEdge(redrawEdge(pattern, top({ cb: 20 })).pattern.panels[0]!).path, notch!.at).distance,
  ).toBeLessThan(0.001);
  for (const [i, { at }] of others.entries()) {
    const was = pattern.panels[0]!.notches[i + 1]!.at;
    expect(Math.hypot(at.x - was.x, at.y - was.y)).toBeLessThan(1e-6);
  }
});

test('a gusset is left as it is, and that is told where the bottom was redrawn', () => {
  const gusset: Panel = {
    name: 'gusset',
    line: 'stitching',
    gusset: { waistY: -80 },
    edges: [
      { name: 'gusset-back', path: { segments: run([0, 0], [20, 60]) } },
      { name: 'bottom', path: { segments: run([20, 60], [-20, 60]) } },
      { name: 'gusset-front', path: { segments: run([-20, 60], [0, 0]) } },
    ],
    levels: [],
    notches: [],
    bones: [],
  };
  const pattern = { ...boxes(), panels: [...boxes().panels, gusset] };
  const lowered = redrawEdge(pattern, bottom({ cf: -10 }));
  expect(lowered.pattern.panels.at(-1)).toBe(gusset);
  expect(lowered.findings).toMatchObject([{ kind: 'gusset-left', where: 'panel gusset' }]);
  for (const edge of ['top', 'bottom'] as const)
    expect(caught(() => redrawEdge(pattern, { edge, at: [{ seam: 'gusset-front', amount: -5 }] }))).toMatchObject({
      code: 'usage',
      where: '--at',
      message: 'gusset-front is a side of the gusset gusset, which the line passes over',
    });
  expect(redrawEdge(pattern, top({ cf: -10 })).findings).toEqual([]);
});

test('its input is left as it was', () => {
  const pattern = bodice();
  const copy = structuredClone(pattern);
  redrawEdge(pattern, top({ side: 9, cb: -9 }));
  expect(pattern).toEqual(copy);
});

const refused = (pattern: Pattern, what: RedrawEdge) => caught(() => redrawEdge(pattern, what));
const largest = (hint: string | undefined): number => Number(/=(-?[\d.]+)mm$/.exec(hint ?? '')?.[1]);

describe('refusals', () => {
  test('a level that would be lost, with the largest amount that works', () => {
    const error = refused(boxes(), top({ cb: -60 }));
    expect(error).toMatchObject({
      code: 'impossible',
      where: 'panel p3',
      message: 'would lose its level bust',
      hint: 'the largest amount that works is cb=-50mm',
    });
    expect(() => redrawEdge(boxes(), top({ cb: -50 }))).not.toThrow();
  });

  test('several amounts are scaled together', () => {
    const { hint } = refused(boxes(), top({ cf: 30, cb: -100 }));
    expect(hint).toBe('the largest amounts like these that work are cf=15mm, cb=-50mm');
  });

  test('a seam that would be too short, or gone', () => {
    const low = patternOf(
      panelOf({
        name: 'low',
        seams: ['cf', 'cb'],
        top: run([0, -40], [100, -40]),
        back: run([100, -40], [100, 0]),
        bottom: run([100, 0], [0, 0]),
        front: run([0, 0], [0, -40]),
        levels: { waist: -5 },
      }),
    );
    const error = refused(low, top({ cf: -32, cb: -32 }));
    expect(error.message).toBe('would have a seam cf under 10.00 mm long');
    expect(largest(error.hint)).toBe(-30);
    expect(refused(low, top({ cf: -45, cb: -45 }))).toMatchObject({
      message: 'would have nothing left of its seam cf',
    });
  });

  test('the largest amount on a curved panel works, and a little more does not', () => {
    const pattern = patternOf(curvedPanel());
    const most = largest(refused(pattern, bottom({ cb: 400 })).hint);
    expect(most).toBeGreaterThan(5);
    expect(() => redrawEdge(pattern, bottom({ cb: most }))).not.toThrow();
    expect(refused(pattern, bottom({ cb: most + 0.11 })).code).toBe('impossible');
  });

  test('names, amounts and panels that do not fit', () => {
    expect(refused(boxes(), top({ sid: 5 }))).toMatchObject({ code: 'usage', message: 'no seam is called sid' });
    expect(refused(boxes(), top({ side: 0 }))).toMatchObject({ code: 'usage', message: 'moves nothing' });
    const [first, ...rest] = boxes().panels;
    const loose = {
      ...first!,
      edges: [{ name: 'outline', path: { segments: first!.edges.flatMap(({ path }) => path.segments) } }],
    };
    expect(refused({ ...boxes(), panels: [loose, ...rest] }, top({ cb: 5 }))).toMatchObject({ code: 'input' });
    const cut = { ...boxes(), panels: boxes().panels.map((panel) => ({ ...panel, line: 'cutting' as const })) };
    expect(refused(cut, top({ cb: 5 })).code).toBe('input');
  });
});

test('the whole line keeps its length in the report’s own figures', () => {
  const pattern = patternOf(straightPanel());
  const { change } = redrawEdge(pattern, top({ cb: 7 }));
  expect(change.line.after).toBeCloseTo(
    2 * pathLength(topEdge(redrawEdge(pattern, top({ cb: 7 })).pattern.panels[0]!).path),
    9,
  );
});
