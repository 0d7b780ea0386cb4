import { describe, expect, it } from 'vitest';
import { addAllowance } from '../../src/alterations/add-allowance.ts';
import { redrawCutting } from '../../src/alterations/allowance/redraw-cutting.ts';
import { trueSeams, type TrueOutcome } from '../../src/alterations/true-seams.ts';
import type { TrueSeams } from '../../src/alterations/true-seams-options.ts';
import { pathLength } from '../../src/geometry/arc-length.ts';
import { pointOn } from '../../src/geometry/evaluate.ts';
import { nearestPoint } from '../../src/geometry/nearest-point.ts';
import { walk } from '../../src/measure/walk.ts';
import { edgeNamed, panelNamed } from '../../src/pattern/look-up.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { block, notched, type Heights } from '../support/blocks.ts';
import { caught } from '../support/caught.ts';
import { expectSound } from '../support/invariants.ts';
import { allShapes, farthestApart, halfPattern, mirrored, panelOf, patternOf, run } from '../support/shaped-panels.ts';

const front = (above: Heights = 200, below: Heights = 150): Panel => block('front', ['cf', 'side'], above, below);
const back = (above: Heights = 200, below: Heights = 150): Panel => block('back', ['side', 'cb'], above, below);

const ALL: TrueSeams = { seams: [], keep: [] };

/** Trued and sound, with nothing left for a second run. */
const trued = (pattern: Pattern, what: Partial<TrueSeams> = {}): TrueOutcome => {
  const outcome = trueSeams(pattern, { ...ALL, ...what });
  expectSound(pattern, outcome.pattern);
  expect(trueSeams(outcome.pattern, { ...ALL, ...what }).pattern).toBe(outcome.pattern);
  return outcome;
};

const sideOn = (pattern: Pattern, panel: string): number =>
  pathLength(edgeNamed(panelNamed(pattern, panel), 'side').path);

/** A panel wholly below the waist. */
const skirt = (name: string, seams: readonly [string, string], length: number): Panel => ({
  ...panelOf({
    name,
    seams,
    top: run([0, 20], [80, 20]),
    back: run([80, 20], [80, 20 + length]),
    bottom: run([80, 20 + length], [0, 20 + length]),
    front: run([0, 20 + length], [0, 20]),
    levels: {},
  }),
});

describe('lengths', () => {
  it('are shared: one edge grows by half of the difference, the other is trimmed by half, at the top and at the bottom', () => {
    const before = patternOf(front(203, 150), back(200, 152));
    const { pattern, change } = trued(before);
    const [{ above, below }] = walk(pattern, []).walks[0]!.edges;
    expect([above, below]).toEqual([expect.closeTo(201.5, 4), expect.closeTo(151, 4)]);
    expect(change.seams).toMatchObject([
      {
        seam: 'side',
        edges: [
          { panel: 'front', growth: { top: expect.closeTo(-1.5, 9), bottom: expect.closeTo(1, 9) } },
          { panel: 'back', growth: { top: expect.closeTo(1.5, 9), bottom: expect.closeTo(-1, 9) } },
        ],
      },
    ]);
  });

  it('of a trusted edge stay, and the other takes all of it', () => {
    const before = patternOf(front(203), back());
    const { pattern } = trued(before, { keep: [{ seam: 'side', panel: 'front' }] });
    expect(sideOn(pattern, 'front')).toBe(353);
    expect(sideOn(pattern, 'back')).toBeCloseTo(353, 4);
    expect(pattern.panels[0]).toBe(before.panels[0]);
    const other = trued(before, { keep: [{ seam: 'side', panel: 'back' }] });
    expect(sideOn(other.pattern, 'front')).toBeCloseTo(350, 4);
    expect(other.pattern.panels[1]).toBe(before.panels[1]);
  });

  it('that differ by 0.05 mm at most are left alone, and nothing at all is changed', () => {
    const before = patternOf(front(200.04), back());
    const { pattern, change } = trued(before);
    expect(pattern).toBe(before);
    expect(change.seams).toEqual([]);
  });

  it('of edges that differ by more than an inch are refused', () => {
    const error = caught(() => trueSeams(patternOf(front(226), back()), ALL));
    expect(error).toMatchObject({
      code: 'impossible',
      where: 'seam side',
      message: 'its edges differ by 26.00 mm above the waist',
    });
    expect(error.hint).toMatch(/^up to 25.40 mm/);
    expect(trueSeams(patternOf(front(225), back()), ALL).change.seams).toHaveLength(1);
  });

  it('of a seam off the waist change at the end away from it', () => {
    const before = patternOf(skirt('front', ['cf', 'side'], 100), skirt('back', ['side', 'cb'], 104));
    const { pattern, change } = trued(before);
    expect(change.seams[0]!.edges.map(({ growth }) => growth)).toEqual([
      { top: 0, bottom: 2 },
      { top: 0, bottom: -2 },
    ]);
    expect(sideOn(pattern, 'front')).toBeCloseTo(102, 4);
  });

  it('change no width at any level', () => {
    const before = halfPattern();
    const longer: Pattern = {
      ...before,
      panels: before.panels.map((panel, at) => (at === 1 ? stretchedTop(panel) : panel)),
    };
    const { change } = trued(longer);
    expect(change.seams.length).toBeGreaterThan(0);
    expect(change.girth).toHaveLength(5);
    for (const { before: was, after } of change.girth) expect(after).toBeCloseTo(was, 6);
  });
});

/** The panel with its top 4 mm higher at the front, its own seam going on straight. */
const stretchedTop = (panel: Panel): Panel => {
  const [top, backSeam, bottom, frontSeam] = panel.edges;
  const corner = { x: top!.path.segments[0]!.start.x, y: top!.path.segments[0]!.start.y - 4 };
  const [first, ...rest] = top!.path.segments;
  const last = frontSeam!.path.segments.at(-1)!;
  return {
    ...panel,
    edges: [
      { ...top!, path: { segments: [{ ...first!, start: corner }, ...rest] } },
      backSeam!,
      bottom!,
      {
        ...frontSeam!,
        path: { segments: [...frontSeam!.path.segments, { kind: 'line', start: last.end, end: corner }] },
      },
    ],
  };
};

describe('top and bottom across a seam', () => {
  it('are turned about their corners, half each, until they run on smoothly; seams stay as they are', () => {
    const before = patternOf(front([200, 210], 150), back([210, 200], [150, 140]));
    const { pattern, change } = trued(before);
    const { walks, bends } = walk(pattern, []);
    expect(bends).toEqual([]);
    expect(walks[0]!.excess.top).toBeCloseTo(0, 9);
    for (const [at, panel] of pattern.panels.entries()) {
      expect(edgeNamed(panel, 'side')).toBe(edgeNamed(before.panels[at]!, 'side'));
    }
    expect(change.seams[0]!.bends.map(({ corner }) => corner)).toEqual(['top', 'bottom']);
  });

  it('move over their whole length in one gentle line, by 4/27 of the length times the slope at most', () => {
    // Tops 80 mm wide that rise by 10 mm to the seam: each is turned by its own slope of 1 in 8.
    const before = patternOf(front([200, 210], 150), back([210, 200], 150));
    const { pattern, change } = trued(before);
    const most = (4 / 27) * Math.hypot(80, 10) * (10 / 80);
    expect(change.smoothed).toEqual([
      { panel: 'front', edge: 'top', most: expect.closeTo(most, 2) },
      { panel: 'back', edge: 'top', most: expect.closeTo(most, 2) },
    ]);
    const [top] = pattern.panels[0]!.edges;
    expect(top!.path.segments).toHaveLength(1);
    expect(farthestApart(top!.path, before.panels[0]!.edges[0]!.path)).toBeCloseTo(most, 2);
    const [start] = top!.path.segments;
    if (start!.kind === 'line') throw new Error('the line is bent');
    expect(Math.atan2(start!.startHandle.y + 200, start!.startHandle.x)).toBeCloseTo(-Math.atan(1 / 8), 6);
  });

  it('turned at both ends are smooth at both, each bump flat where the other begins', () => {
    const before = patternOf(
      block('front', ['cf', 'princess'], [200, 210], 150),
      block('middle', ['princess', 'side'], [210, 212], 150),
      block('back', ['side', 'cb'], [212, 200], 150),
    );
    const { pattern, change } = trued(before);
    const { walks, bends } = walk(pattern, []);
    expect(bends).toEqual([]);
    for (const { excess } of walks) expect(excess.top).toBeCloseTo(0, 9);
    expect(change.smoothed.map(({ panel }) => panel)).toEqual(['front', 'middle', 'back']);
  });

  it('that turn far round are redrawn near the corner alone', () => {
    // The top falls over the last of its way to the centre front, as an armhole does.
    const arched = { start: { x: 0, y: -150 }, startHandle: { x: 0, y: -180 }, endHandle: { x: 30, y: -200 } };
    const drawn = front([150, 210]);
    const top = { name: 'top', path: { segments: [{ kind: 'cubic' as const, ...arched, end: { x: 80, y: -210 } }] } };
    const before = patternOf({ ...drawn, edges: [top, ...drawn.edges.slice(1)] }, back([210, 200]));
    const { pattern } = trued(before);
    expect(walk(pattern, []).bends).toEqual([]);
    const now = edgeNamed(pattern.panels[0]!, 'top').path;
    for (const t of [0, 0.1, 0.2]) {
      expect(nearestPoint(now, pointOn(top.path.segments[0]!, t)).distance).toBeLessThan(0.001);
    }
  });

  it('are turned on one side only where the other is trusted', () => {
    const before = patternOf(front([200, 210]), back([210, 200]));
    const { pattern } = trued(before, { keep: [{ seam: 'side', panel: 'front' }] });
    expect(pattern.panels[0]).toBe(before.panels[0]);
    expect(walk(pattern, []).bends).toEqual([]);
  });

  it('that bend by 2 degrees at most, or by more than 30, are left alone; a point drawn on purpose is told', () => {
    const slight = patternOf(front([200, 201.3]), back([201.3, 200]));
    expect(trued(slight).pattern).toBe(slight);
    const pointed = patternOf(front([200, 230]), back([230, 200]));
    const { pattern, findings } = trued(pointed);
    expect(pattern).toBe(pointed);
    expect(findings).toMatchObject([{ weight: 'note', kind: 'point-across-seam' }]);
  });

  it('with corners of their own are redrawn no farther than the first of these', () => {
    const pointed = { ...front(), edges: front().edges.map((edge) => ({ ...edge })) };
    const top = { name: 'top', path: { segments: run([0, -200], [60, -220], [80, -200]) } };
    const before = patternOf({ ...pointed, edges: [top, ...pointed.edges.slice(1)] }, back([200, 182]));
    const { pattern } = trued(before);
    expect(walk(pattern, []).bends).toEqual([]);
    expect(edgeNamed(pattern.panels[0]!, 'top').path.segments[0]).toBe(top.path.segments[0]);
  });
});

describe('notches', () => {
  it('that pair move half the way each, along their edges', () => {
    const before = patternOf(notched(front(), 'side', 100), notched(back(), 'side', 104));
    const { pattern, change } = trued(before);
    const places = pattern.panels.map(({ notches }) => notches[0]!.at.y);
    expect(places).toEqual([expect.closeTo(-102, 6), expect.closeTo(-102, 6)]);
    expect(change.seams[0]!.edges.map(({ notches }) => notches.map(({ from, to }) => [from, to]))).toEqual([
      [[expect.closeTo(100, 9), expect.closeTo(102, 9)]],
      [[expect.closeTo(104, 9), expect.closeTo(102, 9)]],
    ]);
    expect(pattern.panels.map(({ edges }) => edges)).toEqual(before.panels.map(({ edges }) => edges));
  });

  it('of a trusted edge stay', () => {
    const before = patternOf(notched(front(), 'side', 100), notched(back(), 'side', 104));
    const { pattern } = trued(before, { keep: [{ seam: 'side', panel: 'back' }] });
    expect(pattern.panels[1]).toBe(before.panels[1]);
    expect(pattern.panels[0]!.notches[0]!.at.y).toBeCloseTo(-104, 6);
  });

  it('without a mate stay and are told', () => {
    const before = patternOf(notched(front(), 'side', 100), back());
    const { pattern, findings } = trued(before);
    expect(pattern).toBe(before);
    expect(findings).toMatchObject([{ kind: 'notch-single', weight: 'note' }]);
  });

  it('keep their distance from the waist where the seam is trimmed', () => {
    const before = patternOf(notched(front(206), 'side', 100), notched(back(), 'side', 100));
    const { pattern } = trued(before);
    for (const { notches } of pattern.panels) expect(notches[0]!.at.y).toBeCloseTo(-100, 9);
  });
});

it('trues every shape beside every other that can be trued, whichever way round', () => {
  let done = 0;
  for (const one of allShapes) {
    for (const other of allShapes) {
      for (const flip of [false, true]) {
        const [a, b] = [
          { ...one(), name: 'front' },
          { ...other(), name: 'back' },
        ];
        const before = joined(flip ? mirrored(a) : a, flip ? b : mirrored(b));
        if (
          walk(before, []).walks[0]!.edges.some(({ above, below }, at, edges) => isFar(above!, below!, edges[1 - at]!))
        )
          continue;
        done += 1;
        const { pattern } = trued(before);
        const { lengths, bends } = walk(pattern, [], 0.01);
        expect([...lengths, ...bends], `${one().name} beside ${other().name}`).toEqual([]);
      }
    }
  }
  expect(done).toBeGreaterThan(15);
});

const isFar = (
  above: number,
  below: number,
  other: { above: number | undefined; below: number | undefined },
): boolean => Math.abs(above - other.above!) > 25 || Math.abs(below - other.below!) > 25;

/** The panel with other names for its two seams. */
const named = (panel: Panel, names: readonly [string, string]): Panel => ({
  ...panel,
  edges: panel.edges.map((edge, at) => ({ ...edge, name: at === 1 ? names[1] : at === 3 ? names[0] : edge.name })),
});

/** Two panels side by side, the back seam of the first sewn to the front seam of the second. */
const joined = (one: Panel, other: Panel): Pattern => {
  return patternOf(named(one, ['cf', 'side']), named(other, ['side', 'cb']));
};

it('draws the cutting line of a trued panel again', () => {
  const net = patternOf(front(203), back());
  const cut = addAllowance(net, { all: 15, byEdge: {} }, { default: 'mitre' }).pattern;
  const { pattern } = trueSeams(cut, ALL, redrawCutting);
  expectSound(cut, pattern);
  for (const panel of pattern.panels) expect(panel.cutting).toEqual(redrawCutting(panel).cutting);
});

it('trues only the seams that are named, and refuses names that do not fit', () => {
  const before = patternOf(front(203), back());
  expect(caught(() => trueSeams(before, { seams: ['sid'], keep: [] }))).toMatchObject({ code: 'usage' });
  expect(caught(() => trueSeams(before, { seams: [], keep: [{ seam: 'side', panel: 'bak' }] }))).toMatchObject({
    code: 'usage',
    message: 'seam side has no edge on bak',
    hint: 'did you mean back?',
  });
  const both = ['front', 'back'].map((panel) => ({ seam: 'side', panel }));
  expect(caught(() => trueSeams(before, { seams: [], keep: both }))).toMatchObject({
    code: 'usage',
    message: 'nothing of seam side could change',
  });
  expect(trueSeams(before, { seams: ['cf'], keep: [] }).pattern).toBe(before);
});
