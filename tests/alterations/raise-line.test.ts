import { describe, expect, test } from 'vitest';
import type { RaiseLine } from '../../src/alterations/heights/plan-raise.ts';
import { raiseLine } from '../../src/alterations/raise-line.ts';
import { redrawCutting } from '../../src/alterations/allowance/redraw-cutting.ts';
import { lengthTo, pathLength } from '../../src/geometry/arc-length.ts';
import { tangentOn } from '../../src/geometry/evaluate.ts';
import { crossHorizontal } from '../../src/geometry/intersect.ts';
import { nearestPoint } from '../../src/geometry/nearest-point.ts';
import { distance, movePoint } from '../../src/geometry/point.ts';
import { dot, leftNormal, scaled, vectorTo } from '../../src/geometry/vector.ts';
import { chordAt } from '../../src/pattern/chord.ts';
import { backEdge, edgeNamed, findLevel, topEdge } from '../../src/pattern/look-up.ts';
import type { Notch, Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { caught } from '../support/caught.ts';
import { everyWay } from '../support/every-way.ts';
import { farthestOff } from '../support/farthest-off.ts';
import { expectSound } from '../support/invariants.ts';
import { at } from '../support/moves.ts';
import {
  corneredPanel,
  curvedPanel,
  farthestApart,
  halfPattern,
  mirrored,
  panelOf,
  patternOf,
  run,
  straightPanel,
  withNotches,
} from '../support/shaped-panels.ts';

const raise = (amount: number, levels: readonly string[] = ['waist'], hold: readonly string[] = []): RaiseLine => ({
  levels: levels.map((name) => at(name)),
  amount,
  hold: hold.map((name) => at(name)),
});

const heightsOf = (panel: Panel): Record<string, number> =>
  Object.fromEntries(panel.levels.map(({ name, y }) => [name, y]));

const refused = (pattern: Pattern, what: RaiseLine) => caught(() => raiseLine(pattern, what));

describe.each(everyWay)('on a panel that is $name', ({ pattern }) => {
  const [panel] = pattern.panels as [Panel];

  test.each([
    ['waist', 12.7],
    ['waist', -12.7],
    ['underbust', 20],
    ['bust', -8],
    ['hip', 6],
  ])('%s by %d mm: every width at a level stays, the level moves, only the seams change', (level, amount) => {
    const { pattern: after } = raiseLine(pattern, raise(amount, [level]));
    const seams = [panel.edges[1]!, panel.edges[3]!].map(({ name }) => ({ panel: panel.name, edge: name }));
    expectSound(pattern, after, seams);
    expect(heightsOf(after.panels[0]!)).toEqual({ ...heightsOf(panel), [level]: findLevel(panel, level)!.y - amount });
    for (const { name, y } of panel.levels) {
      const now = chordAt(after.panels[0]!, findLevel(after.panels[0]!, name)!.y)!;
      expect(Math.abs(now.width - chordAt(panel, y)!.width)).toBeLessThan(0.01);
    }
    expect(after.panels[0]!.edges[0]).toBe(panel.edges[0]);
    expect(after.panels[0]!.edges[2]).toBe(panel.edges[2]);
  });

  test('up and down again comes back', () => {
    const up = raiseLine(pattern, raise(15)).pattern;
    expect(farthestOff(pattern, up)).toBeGreaterThan(0.5);
    const back = raiseLine(up, raise(-15)).pattern;
    expect(farthestOff(pattern, back)).toBeLessThan(panel.name === 'swinging' ? 0.05 : 0.006);
    for (const [i, notch] of back.panels[0]!.notches.entries()) {
      expect(distance(notch.at, panel.notches[i]!.at)).toBeLessThan(0.05);
    }
  });
});

test('the waist of a straight seam lies exactly where it was raised to, and the seam beyond the holds is the very same', () => {
  const { pattern } = raiseLine(patternOf(straightPanel()), raise(12.7));
  const panel = pattern.panels[0]!;
  expect(chordAt(panel, -12.7)).toMatchObject({ fromX: 10, toX: 80 });
  for (const y of [-199, -150, -100, 80, 120, 179]) {
    expect(chordAt(panel, y)!.fromX).toBeCloseTo(chordAt(straightPanel(), y)!.fromX, 9);
    expect(chordAt(panel, y)!.toX).toBeCloseTo(chordAt(straightPanel(), y)!.toX, 9);
  }
});

test('several levels are raised together, with all between them, and with a hold those between it and them go along', () => {
  const both = raiseLine(patternOf(straightPanel()), raise(10, ['waist', 'high-hip']));
  expect(both.change).toMatchObject({ raised: ['waist', 'high-hip'], holds: { above: 'underbust', below: 'hip' } });
  expect(heightsOf(both.pattern.panels[0]!)).toMatchObject({ waist: -10, 'high-hip': 70, hip: 150 });
  for (const y of [0, 20, 50, 80]) {
    expect(chordAt(both.pattern.panels[0]!, y - 10)!.width).toBeCloseTo(chordAt(straightPanel(), y)!.width, 2);
  }
  const held = raiseLine(patternOf(straightPanel()), raise(10, ['waist'], ['bust', 'hip']));
  expect(held.change.holds).toEqual({ above: 'bust', below: 'hip' });
  const moved = Object.fromEntries(held.change.heights.map(({ level, before, after }) => [level, after - before]));
  expect(moved).toMatchObject({ bust: 0, waist: 10, hip: 0 });
  for (const level of ['underbust', 'high-hip']) {
    expect(moved[level]).toBeGreaterThan(1);
    expect(moved[level]).toBeLessThan(9);
  }
  for (const { before, after } of held.change.girth) expect(after).toBeCloseTo(before, 2);
});

test('the report says what the garment measures where the level lay', () => {
  const { change, pattern } = raiseLine(patternOf(straightPanel()), raise(10));
  expect(change.oldLines).toEqual([
    { level: 'waist', before: 140, after: expect.closeTo(2 * chordAt(pattern.panels[0]!, 0)!.width, 9) },
  ]);
  expect(change.oldLines[0]!.after).toBeGreaterThan(140);
  expect(change.edges.map(({ edge }) => edge)).toEqual(['cb', 'cf']);
});

/** Where the side seam lies at a height. */
const sideAt = (panel: Panel, y: number): number => crossHorizontal(edgeNamed(panel, 'side').path, y)[0]!.point.x;

test('where no level lies beyond, the lowest top of all panels holds, so that neighbours move alike', () => {
  const tall = straightPanel('front', ['cf', 'side']);
  const low = panelOf({
    name: 'back',
    seams: ['side', 'cb'],
    top: run([0, -200], [100, -185]),
    back: run([100, -185], [80, 0], [105, 180]),
    bottom: run([105, 180], [-5, 180]),
    front: run([-5, 180], [10, 0], [0, -200]),
    levels: heightsOf(tall),
  });
  const { pattern, change } = raiseLine(patternOf(tall, low), raise(6, ['bust']));
  expect(change.holds).toEqual({ above: 'top', below: 'underbust' });
  for (const [i, panel] of pattern.panels.entries()) {
    const old = [tall, low][i]!;
    for (const y of [-199, -192, -185]) expect(sideAt(panel, y)).toBeCloseTo(sideAt(old, y), 6);
    expect(sideAt(panel, -176)).toBeCloseTo(sideAt(old, -170), 2);
  }
  expectSound(patternOf(tall, low), pattern);
  expect(refused(patternOf(tall, low), raise(14, ['bust']))).toMatchObject({
    code: 'impossible',
    message: 'would have top and bust within 5.00 mm',
    hint: 'the largest amount that works is 10mm',
  });
});

test('notches in the part that moves go along with it, those beyond are the very same, and mates still meet', () => {
  const before = { ...halfPattern(), panels: halfPattern().panels.map(withNotches) };
  const { pattern, findings } = raiseLine(before, raise(6, ['bust']));
  expect(findings).toEqual([]);
  expectSound(before, pattern);
  for (const [i, panel] of pattern.panels.entries()) {
    const old = before.panels[i]!;
    for (const [j, notch] of panel.notches.entries()) {
      const was = nearestPoint(edgeNamed(old, notch.edge).path, old.notches[j]!.at).point;
      const goesAlong = was.y > -185 && was.y < -105 && !['top', 'bottom'].includes(notch.edge);
      expect(distance(notch.at, old.notches[j]!.at) > 0).toBe(goesAlong);
      expect(notch.at.x).toBeCloseTo(was.x, 2);
      expect(was.y - notch.at.y).toBeLessThan(6.001);
    }
  }
});

/** The panel with one notch, at the bust on its side seam, drawn square to it. */
const notched = (panel: Panel): Panel => {
  const edge = edgeNamed(panel, 'side');
  const place = { x: crossHorizontal(edge.path, -170)[0]!.point.x, y: -170 };
  const { location } = nearestPoint(edge.path, place);
  const square = leftNormal(tangentOn(edge.path.segments[location.segment]!, location.t));
  return { ...panel, notches: [{ edge: 'side', at: place, inner: movePoint(place, scaled(square, -6)) }] };
};

test('a notch at the level goes exactly where the level goes, square to the seam as before, and meets its mate', () => {
  const front = notched(curvedPanel('front', ['cf', 'side']));
  const back = notched(mirrored(curvedPanel('back', ['side', 'cb'])));
  const before = patternOf(front, back);
  const { pattern } = raiseLine(before, raise(9, ['bust']));
  const fromTop = pattern.panels.map((panel) => {
    const [notch] = panel.notches as [Notch];
    expect(notch.at.y).toBeCloseTo(-179, 3);
    const { path } = edgeNamed(panel, 'side');
    const { location } = nearestPoint(path, notch.at);
    const along = tangentOn(path.segments[location.segment]!, location.t);
    expect(dot(along, vectorTo(notch.at, notch.inner))).toBeCloseTo(0, 6);
    const length = lengthTo(path, location);
    return path === backEdge(panel).path ? length : pathLength(path) - length;
  });
  expect(fromTop[0]).toBeCloseTo(fromTop[1]!, 3);
});

test('a cutting line is drawn again, left and right panels are altered alike, and the input stays as it was', () => {
  const plain = curvedPanel();
  const cut = redrawCutting({ ...plain, edges: plain.edges.map((edge) => ({ ...edge, allowance: 15 })) });
  const single: Pattern = { ...patternOf(cut), pieces: 'single' };
  const copy = structuredClone(single);
  const { pattern, change } = raiseLine(single, raise(12.7), redrawCutting);
  expect(single).toEqual(copy);
  expectSound(single, pattern);
  expect(pattern.panels[0]!.cutting).toEqual(redrawCutting(pattern.panels[0]!).cutting);
  expect(farthestApart(pattern.panels[0]!.cutting!, cut.cutting!)).toBeGreaterThan(1);
  expect(change.oldLines[0]!.before).toBeCloseTo(chordAt(plain, 0)!.width, 9);
  expect(raiseLine(single, raise(12.7)).pattern.panels[0]).not.toHaveProperty('cutting');
});

test.each([
  ['straight', straightPanel()],
  ['curved', curvedPanel()],
  ['cornered', corneredPanel()],
])('on a %s panel the largest amount works, and a tenth of a millimetre more does not', (_, panel) => {
  for (const amount of [300, -300]) {
    const error = refused(patternOf(panel), raise(amount));
    expect(error).toMatchObject({ code: 'impossible', where: `panel ${panel.name}` });
    const largest = Number(/is (-?[\d.]+)mm$/.exec(error.hint ?? '')![1]);
    expect(Math.sign(largest)).toBe(Math.sign(amount));
    expect(Math.abs(largest)).toBeGreaterThan(20);
    expectSound(patternOf(panel), raiseLine(patternOf(panel), raise(largest)).pattern);
    expect(refused(patternOf(panel), raise(largest + Math.sign(amount) * 0.11)).code).toBe('impossible');
  }
});

test('a level may not pass where nothing moves, nor come within 5 mm of it', () => {
  const pattern = patternOf(straightPanel());
  expect(refused(pattern, raise(100)).message).toBe('would have waist past underbust, only 100.00 mm away');
  expect(refused(pattern, raise(95.1))).toMatchObject({
    message: 'would have underbust and waist within 5.00 mm',
    hint: 'the largest amount that works is 95mm',
  });
  expect(refused(pattern, raise(-80)).hint).toBe('the largest amount that works is -75mm');
  expect(() => raiseLine(pattern, raise(95))).not.toThrow();
});

test.each([
  ['a level that is not there', raise(5, ['wiast']), '--level', 'did you mean waist?'],
  ['top', raise(5, ['top']), '--level', /only a level that is drawn/],
  ['no level', raise(5, []), '--level', /there are: bust/],
  ['a hold at the level itself', raise(5, ['waist'], ['waist']), '--hold', /one above them/],
  ['a hold that is not there', raise(5, ['waist'], ['bsut']), '--hold', 'did you mean bust?'],
  ['a hold off the panels', { ...raise(5), hold: [at('bust', 250)] }, '--hold', /a level that lies on the panels/],
  ['two holds above', raise(5, ['waist'], ['bust', 'underbust']), '--hold', /one above/],
  ['no length', raise(0), '--amount', /give a length/],
  ['not a length', raise(Number.NaN), '--amount', /give a length/],
])('%s is no way to raise a line', (_, what, where, hint) => {
  const error = refused(patternOf(straightPanel()), what);
  expect(error).toMatchObject({ code: 'usage', where });
  expect(error.hint).toMatch(hint);
});

test('an offset from a level is told apart from the level', () => {
  const what = { ...raise(5), levels: [at('waist', 50)] };
  expect(refused(patternOf(straightPanel()), what).message).toBe('waist+50mm is no named level');
});

test('panels that carry allowance or were never labelled are refused', () => {
  const panel = straightPanel();
  expect(refused(patternOf({ ...panel, line: 'cutting' }), raise(5)).code).toBe('input');
  const bare = { ...panel, edges: panel.edges.map((edge) => ({ ...edge, name: `x${edge.name}` })), levels: [] };
  expect(refused(patternOf(panel, bare), raise(5))).toMatchObject({ code: 'input', where: 'panel straight' });
});

/** A panel without bust and underbust, up to a top at that height. */
const short = (top: number): Panel =>
  panelOf({
    name: 'short',
    seams: ['side', 'cb'],
    top: run([0, top], [80, top]),
    back: run([80, top], [100, 180]),
    bottom: run([100, 180], [0, 180]),
    front: run([0, 180], [0, top]),
    levels: { waist: 0, 'high-hip': 80, hip: 150 },
  });

test('a panel that lacks the level stays if it lies beside the part that moves, and is refused if it reaches it', () => {
  const front = straightPanel('front', ['cf', 'side']);
  const beside = raiseLine(patternOf(front, short(-90)), raise(10, ['bust'], ['underbust']));
  expect(topEdge(beside.pattern.panels[1]!).text).toBe('as drawn: top');
  expect(backEdge(beside.pattern.panels[1]!).text).toBe('as drawn: cb');
  expect(refused(patternOf(front, short(-150)), raise(10, ['bust']))).toMatchObject({
    code: 'input',
    where: 'panel short',
    message: 'has no level bust, but its seams reach where it would move',
  });
});

test('inches are offered in sixty-fourths', () => {
  const pattern = { ...patternOf(straightPanel()), units: 'in' as const };
  expect(refused(pattern, raise(100)).hint).toBe('the largest amount that works is 3 47/64in');
});

test('a part that is squeezed to less than two thirds is told of, with the cure', () => {
  const pattern = patternOf(straightPanel());
  expect(raiseLine(pattern, raise(33)).findings).toEqual([]);
  expect(raiseLine(pattern, raise(40)).findings).toMatchObject([
    {
      kind: 'squeezed',
      where: 'between underbust and waist',
      message: '60.00 mm is left of 100.00 mm, so the seams bend quickly there',
    },
  ]);
  expect(raiseLine(pattern, raise(-40)).findings).toMatchObject([{ where: 'between high-hip and waist' }]);
  expect(raiseLine(pattern, raise(40, ['waist'], ['bust'])).findings).toEqual([]);
});
