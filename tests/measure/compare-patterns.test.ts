import { describe, expect, it } from 'vitest';
import { moveSeams } from '../../src/alterations/move-seams.ts';
import { splitSides } from '../../src/alterations/split-sides.ts';
import { point } from '../../src/geometry/point.ts';
import { translatePath } from '../../src/geometry/transform-path.ts';
import { vector } from '../../src/geometry/vector.ts';
import { comparePatterns } from '../../src/measure/compare-patterns.ts';
import { movedPanel } from '../../src/pattern/moved-panel.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { block, notched } from '../support/blocks.ts';
import { boxPattern } from '../support/box-pattern.ts';
import { caught } from '../support/caught.ts';
import { everyWay } from '../support/every-way.ts';
import { halfPattern as bodice } from '../support/half-pattern.ts';
import { letOut } from '../support/moves.ts';
import { allShapes, halfPattern, panelOf, patternOf, run, straightPanel } from '../support/shaped-panels.ts';
import { withGrain } from '../support/with-grain.ts';
import { byWaist, edgeOf, girthChanges, outwards, own, shifted, withEdge } from './comparing.ts';

const mixed: readonly Pattern[] = [
  ...everyWay.map(({ pattern }) => pattern),
  halfPattern(),
  bodice(),
  boxPattern(4),
  splitSides(bodice()).pattern,
];

describe('a pattern against itself', () => {
  it.each(mixed.map((pattern, i) => [i, pattern] as const))('is the same, sample %d', (_, pattern) => {
    for (const compare of [own, byWaist]) {
      const found = compare(pattern, pattern);
      expect(found.differs).toBe(false);
      expect(found.panels.flatMap(({ edges }) => edges.map(({ kind }) => kind))).toEqual(
        pattern.panels.flatMap(({ edges }) => edges.map(() => 'same')),
      );
      expect(Object.values(girthChanges(found)).every((change) => change === 0)).toBe(true);
    }
  });

  it.each(everyWay)(
    'of the $name laid elsewhere is the same by its waist, and moved in its own coordinates',
    ({ pattern }) => {
      const away = { ...pattern, panels: pattern.panels.map((panel) => movedPanel(panel, vector(37, -81))) };
      expect(byWaist(pattern, away).differs).toBe(false);
      expect(byWaist(pattern, away).panels[0]!.laid.dx).toBeCloseTo(-37, 9);
      expect(own(pattern, away).differs).toBe(true);
    },
  );

  it('drawn by other curves within 0.01 mm is the same, drawn anew', () => {
    const after = shifted(halfPattern(), 'cb', 0.006, 0);
    const found = own(halfPattern(), after);
    expect(edgeOf(found, 'back', 'cb').kind).toBe('redrawn');
    expect(found.differs).toBe(false);
  });
});

describe('two sizes', () => {
  it('are laid on each other by the middle of the waist', () => {
    const before = patternOf(straightPanel());
    const { pattern: larger } = moveSeams(before, letOut(['cb'], 6));
    const away = { ...larger, panels: larger.panels.map((panel) => movedPanel(panel, vector(11, 22))) };
    const found = byWaist(before, away);
    expect(found.panels[0]!.laid.dy).toBeCloseTo(-22, 6);
    for (const by of Object.values(outwards(edgeOf(found, 'straight', 'cb')))) expect(by).toBeCloseTo(3, 2);
    for (const by of Object.values(outwards(edgeOf(found, 'straight', 'cf')))) expect(by).toBeCloseTo(3, 2);
    expect(girthChanges(found)['waist']).toBeCloseTo(12, 2);
  });
});

describe('an edge moved by a known amount', () => {
  it.each(everyWay)('across: every level of the $name says so, and the girth', ({ pattern }) => {
    const [panel] = pattern.panels as [Panel];
    const [back, front] = [panel.edges[1]!.name, panel.edges[3]!.name];
    for (const [name, dx, out] of [
      [back, 6.5, 6.5],
      [front, 3.25, -3.25],
    ] as const) {
      const found = own(pattern, shifted(pattern, name, dx, 0));
      const edge = edgeOf(found, panel.name, name);
      expect(edge.kind).toBe('moved');
      for (const by of Object.values(outwards(edge))) expect(by).toBeCloseTo(out, 6);
      expect(edge.most).toBeCloseTo(out, 6);
      expect(edge.apart).toBeLessThanOrEqual(Math.abs(dx) + 1e-6);
      for (const change of Object.values(girthChanges(found))) expect(change).toBeCloseTo(2 * out, 6);
    }
  });

  it.each(everyWay)('up and down: both ends of the top and bottom of the $name say so', ({ pattern }) => {
    const [panel] = pattern.panels as [Panel];
    for (const name of ['top', 'bottom']) {
      const edge = edgeOf(own(pattern, shifted(pattern, name, 0, 7.5)), panel.name, name);
      expect(edge.kind).toBe('moved');
      expect(edge.ends.map(({ up }) => up)).toEqual([-7.5, -7.5].map((by) => expect.closeTo(by, 9) as number));
      expect(edge.most).toBeLessThan(0);
      expect(edge.apart).toBeLessThanOrEqual(7.5 + 1e-6);
    }
    const straight = edgeOf(
      own(patternOf(straightPanel()), shifted(patternOf(straightPanel()), 'top', 0, 7.5)),
      'straight',
      'top',
    );
    expect(straight.apart).toBeCloseTo(7.5, 9);
  });

  it('square to a slanting seam is less than along the level, by its cosine', () => {
    const slanting = panelOf({
      name: 'slanting',
      seams: ['cf', 'cb'],
      top: run([0, -200], [120, -200]),
      back: run([120, -200], [80, 180]),
      bottom: run([80, 180], [0, 180]),
      front: run([0, 180], [0, -200]),
      levels: { bust: -150, waist: 0 },
    });
    const cb = edgeOf(own(patternOf(slanting), shifted(patternOf(slanting), 'cb', 10, 0)), 'slanting', 'cb');
    expect(cb.apart).toBeCloseTo(10 * Math.cos(Math.atan(40 / 380)), 6);
    expect(cb.most).toBeCloseTo(10, 6);
  });
});

describe('marks', () => {
  const plain = block('front', ['cf', 'side'], 200, 150);

  it('a notch that moved along its seam, and one that only one version has', () => {
    const before = patternOf(notched(plain, 'side', 50, -60), block('back', ['side', 'cb'], 200, 150));
    const after = patternOf(notched(plain, 'side', 53.5, -60, 120), block('back', ['side', 'cb'], 200, 150));
    const { notches } = own(before, after).panels[0]!;
    const sorted = notches.toSorted((a, b) => (a.after ?? 0) - (b.after ?? 0));
    expect(sorted.map(({ edge, from, before: was, after: is }) => [edge, from, was, is])).toEqual([
      ['side', 'waist', -60, -60],
      ['side', 'waist', 50, 53.5],
      ['side', 'waist', undefined, 120],
    ]);
  });

  it('grain that turned, with its direction as drawn', () => {
    const before = withGrain(patternOf(plain));
    const lean = (by: number, side?: 'right'): Pattern => ({
      ...before,
      panels: [{ ...before.panels[0]!, ...(side ? { side } : {}), grain: { from: point(0, 20), to: point(by, 120) } }],
    });
    expect(own(before, lean(-10)).panels[0]!.grain.after).toBeCloseTo(Math.atan(0.1), 9);
    expect(own(lean(0, 'right'), lean(-10, 'right')).panels[0]!.grain.after).toBeCloseTo(-Math.atan(0.1), 9);
    expect(own(before, lean(-10)).differs).toBe(true);
  });

  it('allowance, bones and levels that only one version has', () => {
    const before = patternOf(plain);
    const after: Pattern = patternOf({
      ...withEdge(plain, 'top', (edge) => ({ ...edge, allowance: 15 })),
      bones: [translatePath(plain.edges[1]!.path, vector(-10, 0))],
      levels: [{ name: 'bust', y: -100, fromX: 0, toX: 80 }, ...plain.levels],
    });
    const [panel] = own(before, after).panels;
    expect(panel!.edges[0]!.allowance).toEqual({ before: undefined, after: 15 });
    expect(panel!.bones).toEqual({ before: 0, after: 1 });
    expect(panel!.levels[0]!.height).toEqual({ before: undefined, after: 100 });
    expect(own(before, after).differs).toBe(true);
    const moved = patternOf({ ...after.panels[0]!, bones: [translatePath(plain.edges[1]!.path, vector(-12.5, 0))] });
    expect(own(after, moved).panels[0]!.bonesApart).toBeCloseTo(2.5, 6);
  });

  it('corner angles', () => {
    const slanted = block('front', ['cf', 'side'], [200, 200 - 80 * Math.tan(0.1)], 150);
    const { corners } = own(patternOf(plain), patternOf(slanted)).panels[0]!;
    expect(corners.map(({ edge, next, before, after }) => [edge, next, after - before])).toEqual([
      ['top', 'side', expect.closeTo(0.1, 9)],
      ['side', 'bottom', expect.closeTo(0, 9)],
      ['bottom', 'cf', expect.closeTo(0, 9)],
      ['cf', 'top', expect.closeTo(-0.1, 9)],
    ]);
  });
});

describe('what cannot be compared is refused', () => {
  const names = { before: 'a.svg', after: 'b.svg' };
  const refused = (before: Pattern, after: Pattern, sharesFrame = false) =>
    caught(() => comparePatterns(before, after, { sharesFrame, names }));

  it('other panels and other seams, named', () => {
    const { code, message, hint } = refused(boxPattern(3), boxPattern(2));
    expect(code).toBe('input');
    expect(message).toBe('only a.svg has panel panel-3');
    expect(hint).toContain('the same panels with the same seams');
    const renamed = patternOf(block('front', ['cf', 'side'], 200, 150));
    const other = patternOf(block('front', ['cf', 'cb'], 200, 150));
    expect(refused(renamed, other)).toMatchObject({
      where: 'panel front',
      message: 'only a.svg has edge side; only b.svg has edge cb',
    });
  });

  it('a cutting line against a stitching line', () => {
    const cutting = patternOf(...boxPattern(2).panels.map((panel) => ({ ...panel, line: 'cutting' as const })));
    expect(refused(cutting, boxPattern(2)).message).toContain('its cutting line in a.svg');
    expect(refused(boxPattern(2), cutting).hint).toContain('staywright strip-allowance b.svg');
    expect(comparePatterns(cutting, cutting, { sharesFrame: true }).differs).toBe(false);
  });

  it('pairs against single panels, and panels without a waist', () => {
    expect(refused(boxPattern(2), splitSides(boxPattern(2)).pattern).hint).toContain('split-sides');
    const bare = patternOf(...allShapes.map((shape) => ({ ...shape(), levels: [] })));
    expect(refused(bare, bare)).toMatchObject({ message: 'has no waist to lay one version on the other by' });
    expect(comparePatterns(bare, bare, { sharesFrame: true }).differs).toBe(false);
  });
});
