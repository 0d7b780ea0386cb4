import { describe, expect, test } from 'vitest';
import { splice, type Splice } from '../../src/alterations/splice.ts';
import { pointOn } from '../../src/geometry/evaluate.ts';
import { nearestPoint } from '../../src/geometry/nearest-point.ts';
import type { Path } from '../../src/geometry/path.ts';
import { translatePath } from '../../src/geometry/transform-path.ts';
import { chordAt } from '../../src/pattern/chord.ts';
import { findLevel } from '../../src/pattern/look-up.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { expectSound } from '../support/invariants.ts';
import { at } from '../support/moves.ts';
import { panelOf, patternOf, run, withNotches } from '../support/shaped-panels.ts';

/** Half the width at a height, y down: what a frustum's gore with straight sides has. */
type HalfWidth = (y: number) => number;

const LEVELS = { bust: -150, underbust: -80, waist: 0, hip: 120 };

/** A straight gore about x = 0, from 200 mm above the waist to 160 mm below it, its grainline in the middle. */
const gore = (half: HalfWidth, levels: Readonly<Record<string, number>> = LEVELS, top = -200): Panel => {
  const [up, down] = [half(top), half(160)];
  const panel = panelOf({
    name: 'gore',
    seams: ['cf', 'cb'],
    top: run([-up, top], [up, top]),
    back: run([up, top], [down, 160]),
    bottom: run([down, 160], [-down, 160]),
    front: run([-down, 160], [-up, top]),
    levels,
  });
  return { ...panel, grain: { from: { x: 0, y: 20 }, to: { x: 0, y: 100 } } };
};

const narrow: HalfWidth = (y) => 30 - y / 20;
const wide: HalfWidth = (y) => 36 - y / 10;

const above = (level: string, blend?: number): Splice => ({
  where: { kind: 'above', level: at(level) },
  ...(blend === undefined ? {} : { blend }),
});

const sizes = (...sources: readonly (readonly [string, 'this' | 'other'])[]): Splice => ({
  where: { kind: 'levels', at: sources.map(([level, source]) => ({ level: at(level), source })) },
});

const widthAt = (pattern: Pattern, y: number): number => chordAt(pattern.panels[0]!, y)!.width;

/** 3 t^2 - 2 t^3: the cubic from 0 to 1 that is flat at both ends. */
const smooth = (t: number): number => t * t * (3 - 2 * t);

const moved = (panel: Panel, dx: number, dy: number): Panel => {
  const shift = <P extends { x: number; y: number }>(p: P): P => ({ ...p, x: p.x + dx, y: p.y + dy });
  return {
    ...panel,
    edges: panel.edges.map((edge) => ({ ...edge, path: translatePath(edge.path, { dx, dy }) })),
    levels: panel.levels.map((l) => ({ ...l, y: l.y + dy, fromX: l.fromX + dx, toX: l.toX + dx })),
    notches: panel.notches.map((n) => ({ ...n, at: shift(n.at), inner: shift(n.inner) })),
    ...(panel.grain && { grain: { from: shift(panel.grain.from), to: shift(panel.grain.to) } }),
  };
};

const farthestFrom = (path: Path, from: Path): number =>
  Math.max(
    ...path.segments.flatMap((s) => [0, 0.2, 0.5, 0.8, 1].map((t) => nearestPoint(from, pointOn(s, t)).distance)),
  );

describe('above a level', () => {
  const [mine, other] = [patternOf(gore(narrow)), patternOf(gore(wide))];
  const { pattern, change, findings } = splice(mine, other, above('waist', 50), 'other');

  test('chords are those of this at the level and below, of the other from the blend on, weighted with a flat cubic between', () => {
    expectSound(mine, pattern);
    for (const y of [0, 20, 120, 159]) expect(widthAt(pattern, y)).toBeCloseTo(2 * narrow(y), 6);
    for (const y of [-50, -80, -150, -199]) expect(widthAt(pattern, y)).toBeCloseTo(2 * wide(y), 6);
    for (const y of [-5, -12.5, -25, -40, -48]) {
      const w = smooth(-y / 50);
      expect(widthAt(pattern, y)).toBeCloseTo(2 * ((1 - w) * narrow(y) + w * wide(y)), 2);
    }
    expect(widthAt(pattern, -25)).toBeCloseTo((62.5 + 77) / 2, 2);
  });

  test('the bottom edge is the very same; the top edge is the other one', () => {
    const [top, , bottom] = pattern.panels[0]!.edges;
    expect(bottom).toBe(mine.panels[0]!.edges[2]);
    expect(top!.path).toEqual(other.panels[0]!.edges[0]!.path);
    expect(top!.text).toBeUndefined();
  });

  test('outside the blend a seam has the segments of its source, and the blend leaves both without a kink', () => {
    const { segments } = pattern.panels[0]!.edges[1]!.path;
    expect(segments[0]).toMatchObject({ kind: 'line', start: { x: 56, y: -200 } });
    expect(segments[0]!.end.x).toBeCloseTo(41, 6);
    expect(segments.at(-1)).toMatchObject({ kind: 'line', end: { x: 22, y: 160 } });
    const [first, last] = [segments[1]!, segments.at(-2)!];
    if (first.kind === 'line' || last.kind === 'line') throw new Error('the blend is curved');
    expect((first.startHandle.x - first.start.x) / (first.startHandle.y - first.start.y)).toBeCloseTo(-1 / 10, 4);
    expect((last.end.x - last.endHandle.x) / (last.end.y - last.endHandle.y)).toBeCloseTo(-1 / 20, 4);
  });

  test('the figures say what rules where, and how far each seam moves', () => {
    expect(change.levels.map(({ level, source }) => [level, source])).toEqual([
      ['bust', 'other'],
      ['underbust', 'other'],
      ['waist', 'this'],
      ['hip', 'this'],
    ]);
    expect(change.levels[0]!.other).toBeCloseTo(4 * wide(-150), 6);
    expect(change.girth[0]).toMatchObject({ level: 'bust' });
    expect(change.girth[0]!.before).toBeCloseTo(4 * narrow(-150), 6);
    expect(change.girth[0]!.after).toBeCloseTo(4 * wide(-150), 6);
    expect(change.blend).toBe(50);
    for (const { outwards } of change.steps) expect(outwards).toBeCloseTo(wide(-50) - narrow(-50), 6);
    expect(findings).toEqual([]);
  });
});

test('below a level it is the mirror image', () => {
  const [mine, other] = [patternOf(gore(narrow)), patternOf(gore(wide))];
  const { pattern } = splice(mine, other, { where: { kind: 'below', level: at('waist') }, blend: 40 }, 'other');
  expectSound(mine, pattern);
  expect(pattern.panels[0]!.edges[0]).toBe(mine.panels[0]!.edges[0]);
  for (const y of [-199, -80, 0]) expect(widthAt(pattern, y)).toBeCloseTo(2 * narrow(y), 6);
  expect(widthAt(pattern, 20)).toBeCloseTo(narrow(20) + wide(20), 2);
  for (const y of [40, 120, 159]) expect(widthAt(pattern, y)).toBeCloseTo(2 * wide(y), 6);
});

test('sizes at levels are exact there and blended between; top and bottom come from the outermost', () => {
  const [mine, other] = [patternOf(gore(narrow)), patternOf(gore(wide))];
  const what = sizes(['bust', 'other'], ['waist', 'this'], ['hip', 'other']);
  const { pattern, change } = splice(mine, other, what, 'other');
  expectSound(mine, pattern);
  expect(change.blend).toBeUndefined();
  for (const y of [-199, -150, 120, 159]) expect(widthAt(pattern, y)).toBeCloseTo(2 * wide(y), 6);
  expect(widthAt(pattern, 0)).toBeCloseTo(60, 6);
  const w = smooth(80 / 150);
  expect(widthAt(pattern, -80)).toBeCloseTo(2 * ((1 - w) * narrow(-80) + w * wide(-80)), 2);
  expect(widthAt(pattern, 60)).toBeCloseTo(narrow(60) + wide(60), 2);
  expect(change.levels.map(({ source }) => source)).toEqual(['other', 'mix', 'this', 'other']);
});

test('between two levels of one source there is nothing but that source', () => {
  const [mine, other] = [patternOf(gore(narrow)), patternOf(gore(wide))];
  const what = sizes(['bust', 'other'], ['underbust', 'other'], ['waist', 'this'], ['hip', 'this']);
  const { pattern } = splice(mine, other, what, 'other');
  for (const y of [-150, -120, -80]) expect(widthAt(pattern, y)).toBeCloseTo(2 * wide(y), 6);
  for (const y of [0, 60, 120]) expect(widthAt(pattern, y)).toBeCloseTo(2 * narrow(y), 6);
  const all = splice(mine, other, sizes(['waist', 'other']), 'other').pattern;
  expect(all.panels[0]!.edges.map(({ path }) => path)).toEqual(other.panels[0]!.edges.map(({ path }) => path));
});

describe('the other version lies elsewhere', () => {
  const mine = patternOf(gore(narrow));

  test('it is moved waist on waist and grain on grain', () => {
    const straight = splice(mine, patternOf(gore(wide)), above('waist', 50), 'other').pattern;
    const far = splice(mine, patternOf(moved(gore(wide), 37, -212)), above('waist', 50), 'other').pattern;
    for (const [i, edge] of far.panels[0]!.edges.entries()) {
      expect(farthestFrom(edge.path, straight.panels[0]!.edges[i]!.path)).toBeLessThan(0.001);
    }
    expect(findLevel(far.panels[0]!, 'bust')!.y).toBeCloseTo(-150, 9);
  });

  test('a grainline off the middle decides; without one the middles of the waists meet', () => {
    const grained = { ...gore(wide), grain: { from: { x: 4, y: 20 }, to: { x: 4, y: 100 } } };
    const byGrain = splice(mine, patternOf(grained), above('waist', 50), 'other').pattern;
    expect(chordAt(byGrain.panels[0]!, -150)).toMatchObject({
      fromX: expect.closeTo(-4 - wide(-150), 6),
      toX: expect.closeTo(-4 + wide(-150), 6),
    });
    const { grain: _, ...bare } = moved(gore(wide), 11, 0);
    const byMiddle = splice(mine, patternOf(bare), above('waist', 50), 'other').pattern;
    expect(chordAt(byMiddle.panels[0]!, -150)!.fromX).toBeCloseTo(-wide(-150), 6);
  });
});

describe('levels at other heights', () => {
  const mine = patternOf(gore(narrow));
  const taller = patternOf(gore(wide, { ...LEVELS, bust: -160, underbust: -90 }, -220));
  const { pattern, change } = splice(mine, taller, above('waist', 50), 'other');

  test('come to lie where the other has them, and the top is as high as there', () => {
    expectSound(mine, pattern);
    const [panel] = pattern.panels;
    expect(panel!.levels.map(({ name, y }) => [name, y])).toEqual([
      ['bust', -160],
      ['underbust', -90],
      ['waist', 0],
      ['hip', 120],
    ]);
    expect(panel!.edges[0]!.path).toEqual(taller.panels[0]!.edges[0]!.path);
    expect(change.girth[0]!.after).toBeCloseTo(4 * wide(-160), 6);
  });

  test('in the blend heights are weighted as widths are', () => {
    for (const y of [-10, -25, -40]) {
      const [w, lift] = [smooth(-y / 50), -10 * smooth(y / -80)];
      const wanted = 2 * ((1 - w) * narrow(y) + w * wide(y + lift));
      expect(widthAt(pattern, y + w * lift)).toBeCloseTo(wanted, 2);
    }
  });
});

test('a pattern spliced with itself is itself, object for object', () => {
  const mine = patternOf(withNotches(gore(narrow)));
  const twin = patternOf(moved(withNotches(gore(narrow)), 5, 3));
  for (const what of [above('waist'), above('bust', 20), sizes(['bust', 'other'], ['waist', 'this'])]) {
    const { pattern, change } = splice(mine, structuredClone(mine), what, 'other');
    expect(pattern).toBe(mine);
    expect(change.edges).toEqual([]);
    expect(splice(mine, twin, what, 'other').pattern.panels[0]).toBe(mine.panels[0]);
  }
});

test('up and back again leaves this as it was outside the blend', () => {
  const mine = patternOf(gore(narrow));
  const up = splice(mine, patternOf(gore(wide)), above('waist', 50), 'other').pattern;
  const back = splice(up, mine, above('waist', 50), 'other').pattern;
  expectSound(up, back);
  for (const y of [-199, -150, -80, -50, 0, 40, 120, 159]) expect(widthAt(back, y)).toBeCloseTo(2 * narrow(y), 6);
  expect(back.panels[0]!.edges[0]!.path).toEqual(mine.panels[0]!.edges[0]!.path);
  expect(back.panels[0]!.edges[2]).toBe(mine.panels[0]!.edges[2]);
});

test('a default blend gives way where there is less room', () => {
  const low = patternOf(gore(narrow, { bust: -170, waist: 0 }));
  const { change } = splice(low, patternOf(gore(wide, { bust: -170, waist: 0 })), above('bust'), 'other');
  expect(change.blend).toBe(30);
  const inches = { ...patternOf(gore(narrow)), units: 'in' as const };
  expect(splice(inches, patternOf(gore(wide)), above('waist'), 'other').change.blend).toBe(50.8);
});

describe('a fair blend', () => {
  /** Wider than the narrow one by `by` on either side, all over. */
  const wider =
    (by: number): HalfWidth =>
    (y) =>
      narrow(y) + by;
  const mine = patternOf(gore(narrow));
  const spliced = (by: number, blend?: number, units: 'mm' | 'in' = 'mm') =>
    splice({ ...mine, units }, patternOf(gore(wider(by))), above('waist', blend), 'other');

  // 3t^2 - 2t^3 is steepest in the middle, where it rises by 1.5: a line that moves by d leans one in four over a blend of 6 d.
  test.each([
    [0.5, 'mm', 50],
    [8.3, 'mm', 50],
    [9, 'mm', 60],
    [14, 'mm', 90],
    [15, 'mm', 90],
    [8.4, 'in', 50.8],
    [9, 'in', 63.5],
    [14, 'in', 88.9],
  ] as const)('where lines move by %d mm and sheets are in %s is %d mm long', (by, units, wanted) => {
    const { change, pattern, findings } = spliced(by, undefined, units);
    expectSound(mine, { ...pattern, units: 'mm' });
    expect(change.blend).toBeCloseTo(wanted, 9);
    expect(change.lengthenedFrom).toBe(wanted > 51 ? { mm: 50, in: 50.8 }[units] : undefined);
    expect(findings).toEqual([]);
  });

  test('ends where there is no more room, which is told', () => {
    const { change, findings } = spliced(40);
    expect(change.blend).toBe(200);
    expect(findings).toEqual([]);
    const most = spliced(60);
    expect(most.change.blend).toBe(200);
    expect(most.findings).toMatchObject([
      { weight: 'note', kind: 'blend-steep', cure: expect.stringContaining('no room') },
    ]);
  });

  test('is named where the one that was asked for is steep', () => {
    expect(spliced(11, 50).findings).toEqual([]);
    const { change, findings } = spliced(14, 50);
    expect(change.blend).toBe(50);
    expect(findings).toMatchObject([
      {
        weight: 'note',
        kind: 'blend-steep',
        where: 'panel gore, seam cf',
        message: 'moves 14.00 mm over a blend of 50.00 mm, which may show as a knee',
        cure: 'a fair blend is --blend 90mm',
      },
    ]);
  });
});
