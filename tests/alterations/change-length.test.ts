import { describe, expect, test } from 'vitest';
import { changeLength, type ChangeLength } from '../../src/alterations/change-length.ts';
import { setGusset } from '../../src/alterations/gusset.ts';
import { raiseLine } from '../../src/alterations/raise-line.ts';
import { redrawCutting } from '../../src/alterations/allowance/redraw-cutting.ts';
import { pathLength } from '../../src/geometry/arc-length.ts';
import { tangentOn } from '../../src/geometry/evaluate.ts';
import { pathStart } from '../../src/geometry/path.ts';
import { distance } from '../../src/geometry/point.ts';
import { translatePath } from '../../src/geometry/transform-path.ts';
import { chordAt } from '../../src/pattern/chord.ts';
import { backEdge, edgeNamed, findLevel, topEdge } from '../../src/pattern/look-up.ts';
import type { Panel } from '../../src/pattern/panel.ts';
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
  panelOf,
  patternOf,
  run,
  straightPanel,
  withNotches,
} from '../support/shaped-panels.ts';

const longer = (amount: number, high = 'bust', low = 'waist'): ChangeLength => ({
  between: [at(high), at(low)],
  direction: 'longer',
  amount,
});

const shorter = (amount: number, high?: string, low?: string): ChangeLength => ({
  ...longer(amount, high, low),
  direction: 'shorter',
});

const heightsOf = (panel: Panel): Record<string, number> =>
  Object.fromEntries(panel.levels.map(({ name, y }) => [name, y]));

const refused = (pattern: Pattern, what: ChangeLength) => caught(() => changeLength(pattern, what));

describe.each(everyWay)('on a panel that is $name', ({ pattern }) => {
  const [panel] = pattern.panels as [Panel];

  test.each([
    ['bust', 'waist', 12.7, { bust: -182.7, waist: 0, 'high-hip': 80, hip: 150 }],
    ['waist', 'hip', 20, { bust: -170, underbust: -100, waist: 0, hip: 170 }],
    ['underbust', 'high-hip', 18, { bust: -180, underbust: -110, waist: 0, 'high-hip': 88, hip: 158 }],
    ['high-hip', 'underbust', -18, { bust: -160, underbust: -90, waist: 0, 'high-hip': 72, hip: 142 }],
    ['high-hip', 'hip', -25, { bust: -170, underbust: -100, waist: 0, 'high-hip': 80, hip: 125 }],
  ])('from %s to %s by %d mm: levels lie where they should and keep their widths', (high, low, amount, heights) => {
    const { pattern: after } = changeLength(pattern, longer(amount, high, low));
    expectSound(pattern, after);
    const now = heightsOf(after.panels[0]!);
    for (const [name, y] of Object.entries(heights)) expect(now[name]).toBeCloseTo(y, 9);
    for (const { name, y } of panel.levels) {
      expect(Math.abs(chordAt(after.panels[0]!, now[name]!)!.width - chordAt(panel, y)!.width)).toBeLessThan(0.01);
    }
  });

  test('longer and shorter again comes back, notches too', () => {
    const long = changeLength(pattern, longer(15, 'underbust', 'high-hip')).pattern;
    const back = changeLength(long, shorter(15, 'underbust', 'high-hip')).pattern;
    expect(farthestOff(pattern, back)).toBeLessThan(panel.name === 'swinging' ? 0.05 : 0.006);
    for (const [i, notch] of back.panels[0]!.notches.entries()) {
      expect(distance(notch.at, panel.notches[i]!.at)).toBeLessThan(0.05);
    }
  });
});

test('what lies beyond moves as it is, top and bottom edges and notches with it; what lies on the side of the waist is the very same', () => {
  const before = patternOf(withNotches(curvedPanel()));
  const [old, now] = [before.panels[0]!, changeLength(before, longer(12.7, 'underbust', 'waist')).pattern.panels[0]!];
  expect(topEdge(now).path).toEqual(translatePath(topEdge(old).path, { dx: 0, dy: -12.7 }));
  expect(edgeNamed(now, 'bottom')).toBe(edgeNamed(old, 'bottom'));
  expect(now.notches[0]!.at).toEqual({ x: old.notches[0]!.at.x, y: old.notches[0]!.at.y - 12.7 });
  for (const y of [-180, -130, -100]) {
    expect(chordAt(now, y - 12.7)!.width).toBeCloseTo(chordAt(old, y)!.width, 6);
  }
  for (const y of [0, 50, 170]) expect(chordAt(now, y)!.width).toBeCloseTo(chordAt(old, y)!.width, 6);
});

test('a straight upright seam gets longer by exactly the amount, and stays straight', () => {
  const box = panelOf({
    name: 'box',
    seams: ['cf', 'cb'],
    top: run([0, -200], [80, -200]),
    back: run([80, -200], [80, 180]),
    bottom: run([80, 180], [0, 180]),
    front: run([0, 180], [0, -200]),
    levels: { bust: -150, waist: 0, hip: 120 },
  });
  for (const what of [longer(12.7), longer(30, 'bust', 'hip'), shorter(40, 'waist', 'hip')]) {
    const { pattern, change } = changeLength(patternOf(box), what);
    for (const name of ['cf', 'cb']) {
      const { path } = edgeNamed(pattern.panels[0]!, name);
      expect(path.segments).toHaveLength(1);
      expect(pathLength(path)).toBeCloseTo(380 + change.longer, 9);
    }
    expect(change.up + change.down).toBeCloseTo(change.longer, 9);
  }
});

test('seams stay smooth through both levels', () => {
  const { pattern } = changeLength(patternOf(curvedPanel()), longer(20, 'bust', 'high-hip'));
  const { segments } = backEdge(pattern.panels[0]!).path;
  for (const [i, segment] of segments.slice(1).entries()) {
    const [end, start] = [tangentOn(segments[i]!, 1), tangentOn(segment, 0)];
    expect(Math.hypot(end.dx - start.dx, end.dy - start.dy)).toBeLessThan(1e-3);
  }
});

test('grainline and bones go along, a cutting line is drawn again, and of artwork it is said that it stays', () => {
  const plain = curvedPanel();
  const cut: Panel = {
    ...redrawCutting({ ...plain, edges: plain.edges.map((edge) => ({ ...edge, allowance: 15 })) }),
    grain: { from: { x: 40, y: 120 }, to: { x: 40, y: -150 } },
    bones: [{ segments: run([60, -160], [55, 150]) }],
    art: '<circle r="3"/>',
  };
  const single: Pattern = { ...patternOf(cut), pieces: 'single' };
  const copy = structuredClone(single);
  const { pattern, findings } = changeLength(single, longer(10, 'underbust', 'waist'), redrawCutting);
  const panel = pattern.panels[0]!;
  expect(single).toEqual(copy);
  expectSound(single, pattern);
  expect(panel.grain).toEqual({ from: { x: 40, y: 120 }, to: { x: 40, y: -160 } });
  expect(panel.bones[0]!.segments[0]!.start).toEqual({ x: 60, y: -170 });
  expect(panel.bones[0]!.segments.at(-1)!.end).toEqual({ x: 55, y: 150 });
  expect(panel.cutting).toEqual(redrawCutting(panel).cutting);
  expect(findings.map(({ kind }) => kind)).toEqual(['art-stays']);
});

/** The lowest node of the top edge. */
const lowest = (panel: Panel): number =>
  Math.max(...topEdge(panel).path.segments.flatMap((s) => (s.kind === 'line' ? [] : [s.start.y, s.end.y])));

test('a top edge that dips between the levels goes along with them', () => {
  const dipped = panelOf({
    name: 'dipped',
    seams: ['cf', 'cb'],
    top: run([0, -200], [20, -60, 70, -60, 100, -200]),
    back: run([100, -200], [80, 0], [105, 180]),
    bottom: run([105, 180], [-5, 180]),
    front: run([-5, 180], [10, 0], [0, -200]),
    levels: { bust: -170, underbust: -130, waist: 0, hip: 150 },
  });
  const { pattern } = changeLength(patternOf(dipped), longer(16, 'bust', 'waist'));
  expectSound(patternOf(dipped), pattern);
  expect(lowest(pattern.panels[0]!)).toBeGreaterThan(-130);
  const back = changeLength(pattern, shorter(16, 'bust', 'waist')).pattern;
  expect(farthestOff(patternOf(dipped), back)).toBeLessThan(0.006);
});

test('neighbours change alike: mates still match and notches still meet, from top to bottom of the shortest seam', () => {
  const before = { ...halfPattern(), panels: halfPattern().panels.map(withNotches) };
  for (const what of [
    longer(12.7),
    shorter(15, 'waist', 'hip'),
    longer(20, 'top', 'underbust'),
    longer(9, 'waist', 'bottom'),
  ]) {
    const { pattern, findings } = changeLength(before, what);
    expect(findings).toEqual([]);
    expectSound(before, pattern);
  }
});

test('top is the lowest top of all panels, on every panel', () => {
  const low = panelOf({
    name: 'back',
    seams: ['side', 'cb'],
    top: run([0, -200], [100, -180]),
    back: run([100, -180], [80, 0], [105, 180]),
    bottom: run([105, 180], [-5, 180]),
    front: run([-5, 180], [10, 0], [0, -200]),
    levels: heightsOf(straightPanel()),
  });
  const { pattern } = changeLength(patternOf(straightPanel('front', ['cf', 'side']), low), longer(10, 'top', 'waist'));
  for (const panel of pattern.panels) {
    const side = edgeNamed(panel, 'side').path.segments;
    expect(Math.min(...side.flatMap(({ start, end }) => [start.y, end.y]))).toBeCloseTo(-210, 9);
  }
});

test.each([
  ['straight', straightPanel()],
  ['curved', curvedPanel()],
  ['cornered', corneredPanel()],
])('on a %s panel the most that it can be shortened works, and a tenth of a millimetre more does not', (_, panel) => {
  const error = refused(patternOf(panel), shorter(300, 'underbust', 'high-hip'));
  expect(error).toMatchObject({
    code: 'impossible',
    where: `panel ${panel.name}`,
    message: 'would have no length left between underbust and high-hip',
  });
  const largest = Number(/is ([\d.]+)mm$/.exec(error.hint ?? '')![1]);
  expect(largest).toBeGreaterThan(100);
  expectSound(patternOf(panel), changeLength(patternOf(panel), shorter(largest, 'underbust', 'high-hip')).pattern);
  expect(refused(patternOf(panel), shorter(largest + 0.11, 'underbust', 'high-hip')).code).toBe('impossible');
});

test('levels may not come within 5 mm of each other', () => {
  expect(refused(patternOf(straightPanel()), shorter(96, 'underbust', 'waist'))).toMatchObject({
    message: 'would have underbust and waist within 5.00 mm',
    hint: 'the largest amount that works is 95mm',
  });
});

test('a negative amount is the opposite', () => {
  const pattern = patternOf(straightPanel());
  expect(changeLength(pattern, longer(-12)).pattern).toEqual(changeLength(pattern, shorter(12)).pattern);
});

test.each([
  ['an unknown level', longer(5, 'bost'), 'did you mean bust?'],
  ['one level twice', longer(5, 'waist', 'waist'), /give two levels/],
  ['no length', longer(0), /give a length/],
])('%s is refused', (_, what, hint) => {
  const error = refused(patternOf(straightPanel()), what);
  expect(error.code).toBe('usage');
  expect(error.hint).toMatch(hint);
});

test('a level beyond all panels is refused; a panel that carries allowance and one without labels are too', () => {
  const panel = straightPanel();
  const beyond: ChangeLength = { ...longer(5), between: [at('bust', 200), at('bust', 100)] };
  expect(refused(patternOf(panel), beyond)).toMatchObject({
    code: 'usage',
    message: 'no panel reaches bust+200mm',
  });
  expect(refused(patternOf(panel), { ...longer(5), between: [at('bust', 200), at('waist')] })).toMatchObject({
    code: 'usage',
    where: '--between',
    message: 'no panel reaches bust+200mm',
  });
  expect(refused(patternOf({ ...panel, line: 'cutting' }), longer(5)).code).toBe('input');
  const bare = { ...panel, edges: panel.edges.map((edge) => ({ ...edge, name: `x${edge.name}` })), levels: [] };
  expect(refused(patternOf(bare), longer(5))).toMatchObject({ code: 'input', where: 'panel straight' });
  const short = { ...panel, name: 'short', levels: panel.levels.filter(({ name }) => name !== 'bust') };
  expect(refused(patternOf(panel, short), longer(5))).toMatchObject({ code: 'usage', where: 'panel short' });
  expect(findLevel(short, 'bust')).toBeUndefined();
});

const gussetOf = (pattern: Pattern): Panel => pattern.panels.find(({ gusset }) => gusset !== undefined)!;

describe('with a gusset in the side seam below the high hip', () => {
  const pair = patternOf(straightPanel('front', ['cf', 'side']), straightPanel('back', ['side', 'cb']));
  const place = { kind: 'seam', seam: 'side', below: at('high-hip') } as const;
  const { pattern: before } = setGusset(pair, { place, width: 40, sides: 'straight' });

  test('length put in above it carries it away from the waist as it is, with its reinforcement points', () => {
    const { pattern } = changeLength(before, longer(15, 'waist', 'high-hip'));
    const [was, is] = [gussetOf(before), gussetOf(pattern)];
    expect(is.gusset).toEqual(was.gusset);
    for (const [i, edge] of is.edges.entries()) {
      expect(farthestApart(edge.path, translatePath(was.edges[i]!.path, { dx: 0, dy: 15 }))).toBeLessThan(1e-9);
    }
    for (const [i, panel] of pattern.panels.entries()) {
      for (const [j, slit] of (panel.slits ?? []).entries()) {
        expect(slit.at.y).toBeCloseTo(before.panels[i]!.slits![j]!.at.y + 15, 9);
      }
    }
    expect(pattern.panels.filter(({ slits }) => slits !== undefined)).toHaveLength(2);
  });

  test('length put in beside it makes it longer with the opening, to half a millimetre', () => {
    const { pattern } = changeLength(before, longer(15, 'high-hip', 'hip'));
    const grown = gussetOf(pattern).edges.map(
      (edge, i) => pathLength(edge.path) - pathLength(gussetOf(before).edges[i]!.path),
    );
    const sides = grown.filter((by) => by > 1);
    expect(sides).toHaveLength(2);
    for (const by of sides) expect(Math.abs(by - 15)).toBeLessThan(0.5);
  });

  test('the waist raised above it leaves its edges and levels as they are, farther below the waist', () => {
    const { pattern } = raiseLine(before, { levels: [at('waist')], amount: 9, hold: [] });
    const [was, is] = [gussetOf(before), gussetOf(pattern)];
    for (const [i, edge] of is.edges.entries()) expect(edge).toBe(was.edges[i]);
    expect(is.levels).toEqual(was.levels);
    expect(is.gusset!.waistY).toBeCloseTo(was.gusset!.waistY - 9, 9);
  });

  test('a level raised beside it moves its sides with the seams, and the opening', () => {
    const { pattern } = raiseLine(before, { levels: [at('high-hip')], amount: 9, hold: [at('waist'), at('bottom')] });
    expect(pathStart(gussetOf(pattern).edges[0]!.path).y).toBeCloseTo(
      pathStart(gussetOf(before).edges[0]!.path).y - 9,
      2,
    );
    expect(pattern.panels[0]!.slits![0]!.at.y).toBeCloseTo(71, 9);
  });
});
