import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { moveSeams } from '../../src/alterations/move-seams.ts';
import { redrawCutting } from '../../src/alterations/allowance/redraw-cutting.ts';
import { setGusset } from '../../src/alterations/gusset.ts';
import { splice, type Splice, type Spliced } from '../../src/alterations/splice.ts';
import { StaywrightError } from '../../src/errors.ts';
import { pointOn } from '../../src/geometry/evaluate.ts';
import { crossHorizontal } from '../../src/geometry/intersect.ts';
import { lengthTo } from '../../src/geometry/arc-length.ts';
import { nearestPoint } from '../../src/geometry/nearest-point.ts';
import { pathEnd, pathStart } from '../../src/geometry/path.ts';
import { chordAt } from '../../src/pattern/chord.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { caught } from '../support/caught.ts';
import { intoSeam } from '../support/gussets.ts';
import { expectSound } from '../support/invariants.ts';
import { at, letOut } from '../support/moves.ts';
import {
  allShapes,
  corneredPanel,
  curvedPanel,
  halfPattern,
  mirrored,
  patternOf,
  straightPanel,
  swingingPanel,
  withNotches,
} from '../support/shaped-panels.ts';

const above = (level: string, blend?: number, offset = 0): Splice => ({
  where: { kind: 'above', level: at(level, offset) },
  ...(blend === undefined ? {} : { blend }),
});

/** With an upright grainline where it lies in all versions. */
const grained = (panel: Panel): Panel => ({ ...panel, grain: { from: { x: 40, y: 10 }, to: { x: 40, y: 90 } } });

/** A larger size: both seams let out by an amount of its own at each level. */
const larger = (pattern: Pattern, amounts: Readonly<Record<string, number>> = { bust: 6, waist: 3, hip: 8 }): Pattern =>
  moveSeams(
    pattern,
    letOut(['cf', 'cb'], {
      kind: 'at',
      at: Object.entries(amounts).map(([name, amount]) => ({ level: at(name), amount })),
    }),
  ).pattern;

const chordsAt = (pattern: Pattern, y: number) => {
  const chord = chordAt(pattern.panels[0]!, y)!;
  return { fromX: expect.closeTo(chord.fromX, 5), toX: expect.closeTo(chord.toX, 5) };
};

const steady = allShapes.flatMap((shape) => (shape().name === 'swinging' ? [] : [shape(), mirrored(shape())]));

describe.each(steady.map((panel, i) => ({ name: `${panel.name} ${i % 2}`, panel })))('on $name', ({ panel }) => {
  const mine = patternOf(withNotches(grained(panel)));
  const other = larger(mine);

  test('all is this at the level and below, and the other from the blend on', () => {
    const { pattern } = splice(mine, other, above('waist', 60), 'other');
    expectSound(mine, pattern, [
      { panel: panel.name, edge: 'top' },
      { panel: panel.name, edge: 'cf' },
      { panel: panel.name, edge: 'cb' },
    ]);
    for (const y of [0, 40, 80, 150]) expect(chordAt(pattern.panels[0]!, y)).toMatchObject(chordsAt(mine, y));
    for (const y of [-60, -100, -170]) expect(chordAt(pattern.panels[0]!, y)).toMatchObject(chordsAt(other, y));
  });

  test('sizes are exact at their levels', () => {
    const sources = { bust: 'this', waist: 'other', 'high-hip': 'this', hip: 'other' } as const;
    const what: Splice = {
      where: { kind: 'levels', at: Object.entries(sources).map(([name, source]) => ({ level: at(name), source })) },
    };
    const { pattern } = splice(mine, other, what, 'other');
    expectSound(mine, pattern);
    for (const { name, y } of panel.levels) {
      const source = sources[name as keyof typeof sources];
      if (source === undefined) continue;
      expect(chordAt(pattern.panels[0]!, y)).toMatchObject(chordsAt(source === 'this' ? mine : other, y));
    }
  });

  test('notches on seams keep their distance from the waist, as on the version that they come from', () => {
    const { pattern } = splice(mine, other, above('waist', 60), 'other');
    for (const notch of pattern.panels[0]!.notches.filter(({ edge }) => edge === 'cf' || edge === 'cb')) {
      const fromWaist = (of: Pattern): number => {
        const { path } = of.panels[0]!.edges.find(({ name }) => name === notch.edge)!;
        const mark = of.panels[0]!.notches.find(({ edge }) => edge === notch.edge)!;
        const waist = crossHorizontal(path, 0)[0]!.location;
        return lengthTo(path, nearestPoint(path, mark.at).location) - lengthTo(path, waist);
      };
      const source = notch.at.y < -60 ? other : mine;
      expect(fromWaist(pattern)).toBeCloseTo(fromWaist(source), 2);
    }
    expect(pattern.panels[0]!.notches).toHaveLength(4);
  });
});

test('corners of a seam inside the blend stay corners, at their weighted place', () => {
  const mine = patternOf(grained(corneredPanel()));
  const other = larger(mine, { waist: 8 });
  const { pattern } = splice(mine, other, above('waist', 100), 'other');
  expectSound(mine, pattern);
  const w = 0.6 * 0.6 * (3 - 2 * 0.6);
  const corner = pattern.panels[0]!.edges[1]!.path.segments.find(({ start }) => Math.abs(start.y + 60) < 0.001);
  expect(corner!.start.x).toBeCloseTo(90 + 8 * w, 3);
});

test('a seam that turns back upwards is spliced where it runs steadily, and refused where it does not', () => {
  const mine = patternOf(grained(swingingPanel()));
  const other = larger(mine, { bust: 4, hip: 4 });
  const { pattern } = splice(mine, other, above('underbust', 50), 'other');
  expectSound(mine, pattern);
  expect(chordAt(pattern.panels[0]!, -170)).toMatchObject(chordsAt(other, -170));
  const error = caught(() => splice(mine, other, above('waist', 50), 'other'));
  expect(error).toMatchObject({
    code: 'impossible',
    where: 'panel swinging',
    message: 'has a seam cb that turns back on itself in the blend',
    hint: 'no blend works there; splice at another level',
  });
});

test('a blend that reaches past the end of a seam is refused with the largest that works', () => {
  const mine = patternOf(grained(straightPanel()));
  const error = caught(() => splice(mine, larger(mine), above('bust', 80), 'other'));
  expect(error).toMatchObject({ code: 'impossible', where: 'panel straight' });
  expect(error.message).toBe('has a seam cb that ends before the blend does');
  const largest = Number(/^the largest blend that works is ([\d.]+)mm$/.exec(error.hint!)![1]);
  expect(largest).toBeGreaterThan(29.5);
  expect(() => splice(mine, larger(mine), above('bust', largest), 'other')).not.toThrow();
  expect(caught(() => splice(mine, larger(mine), above('bust', largest + 0.2), 'other')).code).toBe('impossible');
});

test('a blend in which heights would fold is refused with a longer one that works', () => {
  const mine = patternOf(grained(straightPanel()));
  const [panel] = mine.panels;
  const levels = panel!.levels.map((level) => (level.name === 'underbust' ? { ...level, y: -60 } : level));
  const other = patternOf({ ...panel!, levels });
  const error = caught(() => splice(mine, larger(other), above('underbust', 10, 10), 'other'));
  expect(error.message).toMatch(/has a seam (cb|cf) that would fold in the blend/);
  const longer = Number(/--blend ([\d.]+)mm$/.exec(error.hint!)![1]);
  expect(() => splice(mine, larger(other), above('underbust', longer, 10), 'other')).not.toThrow();
});

test('up and back again leaves a curved panel as it was outside the blend', () => {
  const mine = patternOf(withNotches(grained(curvedPanel())));
  const up = splice(mine, larger(mine), above('waist', 50), 'other').pattern;
  const back = splice(up, mine, above('waist', 50), 'other').pattern;
  expectSound(up, back);
  const [top, cb, bottom, cf] = mine.panels[0]!.edges;
  const [topNow, cbNow, bottomNow, cfNow] = back.panels[0]!.edges;
  expect(topNow!.path).toEqual(top!.path);
  expect(bottomNow).toBe(bottom);
  for (const [was, is] of [[cb, cbNow] as const, [cf, cfNow] as const]) {
    const outside = is!.path.segments.filter(({ start, end }) =>
      [start, end].every(({ y }) => y < -49.999 || y > -0.001),
    );
    expect(outside).toHaveLength(2);
    for (const segment of outside) {
      for (const t of [0, 0.3, 0.7, 1])
        expect(nearestPoint(was!.path, pointOn(segment, t)).distance).toBeLessThan(0.0005);
    }
  }
});

test('a whole half pattern is spliced panel by panel, its mates alike', () => {
  const mine = halfPattern();
  const seams = ['cf', 'front-side', 'side', 'side-back', 'cb'];
  const other = moveSeams(mine, letOut(seams, 3)).pattern;
  const { pattern, findings } = splice(mine, other, above('waist'), 'other');
  expectSound(mine, pattern);
  expect(findings).toEqual([]);
});

test('the cutting line is drawn again from the widths of this', () => {
  const net = patternOf(withNotches(grained(curvedPanel())));
  const edges = net.panels[0]!.edges.map((edge) => ({ ...edge, allowance: 12 }));
  const mine = { ...net, panels: [redrawCutting({ ...net.panels[0]!, edges })] };
  const { pattern } = splice(mine, larger(net), above('waist'), 'other', redrawCutting);
  expectSound(mine, pattern);
  const [panel] = pattern.panels;
  expect(panel!.edges.map(({ allowance }) => allowance)).toEqual([12, 12, 12, 12]);
  for (const { path } of panel!.edges) {
    for (const p of [pathStart(path), pathEnd(path)])
      expect(nearestPoint(panel!.cutting!, p).distance).toBeGreaterThan(11.9);
    for (const { start, end } of path.segments) {
      for (const p of [start, end]) expect(nearestPoint(panel!.cutting!, p).distance).toBeLessThan(18);
    }
  }
});

describe('what does not belong together', () => {
  const mine = patternOf(grained(straightPanel('front', ['cf', 'side'])), grained(curvedPanel('back', ['side', 'cb'])));
  const refused = (other: Pattern, what = above('waist')) => caught(() => splice(mine, other, what, 'v3.svg'));

  test('panels that one of the two lacks are named', () => {
    const [front, back] = mine.panels;
    expect(refused(patternOf({ ...front!, name: 'fronts' }, back!))).toMatchObject({
      code: 'input',
      where: 'v3.svg',
      message: 'lacks panel front, and has panel fronts that this one lacks',
    });
  });

  test('a gusset of either is told of, not called a panel that the other lacks', () => {
    const set = setGusset(mine, intoSeam(40)).pattern;
    const hint = 'splice before gussets are set in';
    expect(refused(set)).toMatchObject({ where: 'v3.svg, panel side-gusset', hint });
    expect(caught(() => splice(set, mine, above('waist'), 'v3.svg'))).toMatchObject({
      where: 'panel side-gusset',
      hint,
    });
  });

  test('seams with other names are named', () => {
    expect(refused(patternOf(straightPanel('front', ['cf', 'hip']), mine.panels[1]!))).toMatchObject({
      code: 'input',
      where: 'v3.svg, panel front',
      message: 'its back seam is hip, not side',
    });
  });

  test('a half pattern and a whole one do not mix', () => {
    expect(refused({ ...mine, pieces: 'single' })).toMatchObject({ code: 'input', where: 'v3.svg' });
  });

  test('allowance in the other is told of with its name', () => {
    const cut = mine.panels.map((panel) => ({ ...panel, line: 'cutting' as const }));
    expect(refused(patternOf(...cut)).where).toBe('v3.svg, panel front, back');
  });

  test('levels that are not there, and a waist that is not there', () => {
    expect(refused(mine, above('wiast')).hint).toBe('did you mean waist?');
    const without = (name: string): Pattern =>
      patternOf(...mine.panels.map((panel) => ({ ...panel, levels: panel.levels.filter((l) => l.name !== name) })));
    expect(refused(without('waist'))).toMatchObject({ code: 'input', message: 'has no waist to match it by' });
    const bust: Splice = { where: { kind: 'levels', at: [{ level: at('bust'), source: 'other' }] } };
    expect(refused(without('bust'), bust)).toMatchObject({
      where: 'v3.svg, panel front',
      message: 'has no level bust',
    });
    const twice: Splice = {
      where: {
        kind: 'levels',
        at: [
          { level: at('waist'), source: 'other' },
          { level: at('hip', 150), source: 'this' },
        ],
      },
    };
    expect(refused(mine, twice)).toMatchObject({ code: 'usage', where: '--size' });
  });
});

const NAMES = ['bust', 'underbust', 'waist', 'high-hip', 'hip'] as const;

const what: fc.Arbitrary<Splice> = fc.oneof(
  fc
    .record({
      kind: fc.constantFrom('above' as const, 'below' as const),
      name: fc.constantFrom(...NAMES),
      offset: fc.constantFrom(-20, 0, 20),
      blend: fc.option(fc.integer({ min: 15, max: 90 }), { nil: undefined }),
    })
    .map(({ kind, name, offset, blend }) => ({
      where: { kind, level: at(name, offset) },
      ...(blend === undefined ? {} : { blend }),
    })),
  fc
    .record({
      names: fc.subarray([...NAMES], { minLength: 1 }),
      sources: fc.array(fc.constantFrom('this' as const, 'other' as const), { minLength: 5, maxLength: 5 }),
    })
    .map(({ names, sources }) => ({
      where: { kind: 'levels' as const, at: names.map((name, i) => ({ level: at(name), source: sources[i]! })) },
    })),
);

/** Its levels that many millimetres lower, one by one from the top; the waist stays. */
const withLevelsLower = (panel: Panel, lower: readonly number[]): Panel => ({
  ...panel,
  levels: panel.levels.map((level, i) => {
    const y = level.name === 'waist' ? level.y : level.y + lower[i]!;
    const { fromX, toX } = chordAt(panel, y)!;
    return { ...level, y, fromX, toX };
  }),
});

const versions = fc
  .record({
    shape: fc.constantFrom(...allShapes),
    flip: fc.boolean(),
    amounts: fc.array(fc.integer({ min: -40, max: 90 }), { minLength: 3, maxLength: 3 }),
    lower: fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 5, maxLength: 5 }),
  })
  .map(({ shape, flip, amounts: [bust, waist, hip], lower }) => {
    const mine = patternOf(withNotches(grained(flip ? mirrored(shape()) : shape())));
    const other = larger(mine, { bust: bust! / 10, waist: waist! / 10, hip: hip! / 10 });
    return { mine, other: { ...other, panels: other.panels.map((panel) => withLevelsLower(panel, lower)) } };
  });

/** The outcome, or undefined where it was refused; anything else that is thrown is a bug. */
const attempted = (mine: Pattern, other: Pattern, asked: Splice): Spliced | undefined => {
  try {
    return splice(mine, other, asked, 'other');
  } catch (error) {
    if (error instanceof StaywrightError) return undefined;
    throw error;
  }
};

/** What an edge is held against: this one's where it stayed, else the version with more nodes, as both were put in. */
const heldAgainst = (mine: Pattern, other: Pattern, after: Pattern): Pattern => ({
  ...mine,
  panels: mine.panels.map((panel, i) => ({
    ...panel,
    edges: panel.edges.map((edge, j) => {
      const theirs = other.panels[i]!.edges[j]!;
      const stayed = after.panels[i]!.edges[j]!.text !== undefined;
      return stayed || edge.path.segments.length >= theirs.path.segments.length ? edge : theirs;
    }),
  })),
});

/** How far the girth of a level is, at the worst, off that of the version that rules it, or in a blend outside the two. */
const farthestOff = ({ change }: Spliced): number =>
  Math.max(
    ...change.girth.map(({ before, after }, i) => {
      const { source, other } = change.levels[i]!;
      const low = { this: before, other: other!, mix: Math.min(before, other!) }[source];
      const high = { this: before, other: other!, mix: Math.max(before, other!) }[source];
      return Math.max(low - after, after - high);
    }),
  );

test('whatever is asked, the result is sound and each level has the girth of the version that rules it, or it is refused', () => {
  let done = 0;
  fc.assert(
    fc.property(versions, what, ({ mine, other }, asked) => {
      const spliced = attempted(mine, other, asked);
      if (!spliced) return;
      done += 1;
      expectSound(heldAgainst(mine, other, spliced.pattern), spliced.pattern);
      expect(farthestOff(spliced)).toBeLessThan(0.01);
    }),
    { numRuns: 120 },
  );
  expect(done).toBeGreaterThan(60);
});
