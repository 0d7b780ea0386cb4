import { describe, expect, test } from 'vitest';
import { moveSeams } from '../../src/alterations/move-seams.ts';
import { girth } from '../../src/measure/girth.ts';
import { pathEnd, pathStart } from '../../src/geometry/path.ts';
import { tangentOn } from '../../src/geometry/evaluate.ts';
import { chordAt } from '../../src/pattern/chord.ts';
import { backEdge, edgeNamed, frontEdge } from '../../src/pattern/look-up.ts';
import { expectSound } from '../support/invariants.ts';
import { at, letOut, takeIn } from '../support/moves.ts';
import {
  allShapes,
  curvedPanel,
  halfPattern,
  mirrored,
  patternOf,
  straightPanel,
  withNotches,
} from '../support/shaped-panels.ts';

const LEVELS = ['bust', 'underbust', 'waist', 'high-hip', 'hip'] as const;

/** How much the girth changed at each level. */
const girthChange = (report: ReturnType<typeof moveSeams>): Record<string, number> =>
  Object.fromEntries(report.change.girth.map(({ level, before, after }) => [level, after - before]));

const everyWay = allShapes
  .flatMap((shape) => [shape(), mirrored(shape())])
  .map((panel, index) => ({
    name: `${panel.name}${index % 2 === 1 ? ', seen from its other side' : ''}`,
    pattern: patternOf(withNotches(panel)),
  }));

describe.each(everyWay)('on a panel that is $name', ({ pattern }) => {
  test('girth changes by exactly amount x stitching lines round the body, at every level', () => {
    const moved = moveSeams(pattern, takeIn(['cb', 'cf'], 4));
    for (const level of LEVELS) expect(girthChange(moved)[level]).toBeCloseTo(-16, 6);
    expectSound(pattern, moved.pattern);
  });

  test('a part that does not move keeps its girth, a level with an amount gets exactly that', () => {
    const moved = moveSeams(pattern, letOut(['cb'], 3, { where: { kind: 'above', level: at('waist') } }));
    expect(Math.abs(girthChange(moved)['bust']! - 6)).toBeLessThan(0.01);
    expect(Math.abs(girthChange(moved)['underbust']! - 6)).toBeLessThan(0.01);
    for (const level of ['waist', 'high-hip', 'hip']) expect(Math.abs(girthChange(moved)[level]!)).toBeLessThan(0.001);
    expectSound(pattern, moved.pattern);
  });

  test('an amount at each level is met at each level', () => {
    const amounts = { bust: 2, underbust: -1.5, waist: 0, 'high-hip': 3, hip: 1 };
    const moved = moveSeams(
      pattern,
      takeIn(['cf'], {
        kind: 'at',
        at: Object.entries(amounts).map(([name, amount]) => ({ level: at(name), amount })),
      }),
    );
    for (const [level, amount] of Object.entries(amounts)) {
      expect(Math.abs(girthChange(moved)[level]! + 2 * amount)).toBeLessThan(0.02);
    }
    expectSound(pattern, moved.pattern);
  });

  test('the other seam keeps its characters, its notch and its path; the grain and the heights of levels stay', () => {
    const moved = moveSeams(pattern, takeIn(['cb'], 5, { where: { kind: 'below', level: at('waist') } })).pattern;
    const [before, after] = [pattern.panels[0]!, moved.panels[0]!];
    expect(edgeNamed(after, 'cf')).toBe(edgeNamed(before, 'cf'));
    expect(edgeNamed(after, 'top')).toBe(edgeNamed(before, 'top'));
    expect(edgeNamed(after, 'cb')).not.toHaveProperty('text');
    expect(after.notches[3]).toBe(before.notches[3]);
    expect(after.notches[0]).toBe(before.notches[0]);
    expect(after.levels.map(({ y }) => y)).toEqual(before.levels.map(({ y }) => y));
    expectSound(pattern, moved, [
      { panel: before.name, edge: 'cb' },
      { panel: before.name, edge: 'bottom' },
    ]);
  });
});

test('taking in moves the back edge to the front and the front edge to the back; letting out the opposite', () => {
  const pattern = patternOf(straightPanel());
  const moved = moveSeams(pattern, takeIn(['cb', 'cf'], 7)).pattern.panels[0]!;
  expect(chordAt(moved, 0)).toMatchObject({ fromX: 17, toX: 73 });
  const out = moveSeams(pattern, letOut(['cb', 'cf'], 7)).pattern.panels[0]!;
  expect(chordAt(out, 0)).toMatchObject({ fromX: 3, toX: 87 });
});

test('a negative amount is the opposite direction', () => {
  const pattern = patternOf(curvedPanel());
  expect(moveSeams(pattern, takeIn(['cb'], -4)).pattern).toEqual(moveSeams(pattern, letOut(['cb'], 4)).pattern);
});

test('a whole seam of straight lines moves as a whole: its inner nodes by exactly the amount', () => {
  const moved = moveSeams(patternOf(straightPanel()), letOut(['cb'], 12.7)).pattern.panels[0]!;
  expect(backEdge(moved).path.segments[0]!.end).toEqual({ x: 80 + 12.7, y: 0 });
});

test('a girth is divided equally over all lines round the body', () => {
  const moved = moveSeams(halfPattern(), takeIn(['front-side', 'cb'], { kind: 'girth', girth: 24 }));
  expect(moved.change.seams.map(({ seam, linesDrawn, linesRoundBody }) => [seam, linesDrawn, linesRoundBody])).toEqual([
    ['front-side', 2, 4],
    ['cb', 1, 2],
  ]);
  expect(moved.change.seams.map(({ levels }) => levels[2])).toEqual([
    { level: 'waist', amount: 4, roundBody: 16 },
    { level: 'waist', amount: 4, roundBody: 8 },
  ]);
  expect(girthChange(moved)['waist']).toBeCloseTo(-24, 6);
});

test('shares divide by seam, each part equally over its own lines', () => {
  const share = { cb: 4, 'side-back': 1 };
  const moved = moveSeams(halfPattern(), takeIn(['cb', 'side-back'], { kind: 'girth', girth: 40, share }));
  expect(moved.change.seams.map(({ levels }) => levels[0]!.amount)).toEqual([16, 2]);
  expect(girthChange(moved)['bust']).toBeCloseTo(-40, 6);
  const named = moveSeams(halfPattern(), takeIn([], { kind: 'girth', girth: 40, share }));
  expect(named.pattern).toEqual(moved.pattern);
});

test('single panels count each line once', () => {
  const single = { ...halfPattern(), pieces: 'single' as const };
  const moved = moveSeams(single, takeIn(['side'], { kind: 'girth', girth: 6 }));
  expect(moved.change.seams[0]).toMatchObject({ linesDrawn: 2, linesRoundBody: 2 });
  expect(moved.change.seams[0]!.levels[0]!.amount).toBe(3);
});

test('between two levels nothing moves at either and all of it in between', () => {
  const pattern = patternOf(straightPanel());
  const change = girthChange(
    moveSeams(pattern, letOut(['cb'], 5, { where: { kind: 'between', levels: [at('hip'), at('underbust')] } })),
  );
  expect(change).toMatchObject({ bust: 0, underbust: 0, hip: 0 });
  expect(change['waist']).toBeCloseTo(10, 9);
  expect(change['high-hip']).toBeCloseTo(10, 9);
  const half = moveSeams(
    pattern,
    letOut(['cb'], 5, { where: { kind: 'between', levels: [at('waist'), at('high-hip')] } }),
  );
  expect(
    girth(half.pattern, [at('waist', -40)]).levels[0]!.girth - girth(pattern, [at('waist', -40)]).levels[0]!.girth,
  ).toBeCloseTo(10, 9);
});

test('the full amount starts where it is said to', () => {
  const where = { kind: 'above', level: at('waist'), fullAt: at('bust') } as const;
  const change = girthChange(moveSeams(patternOf(straightPanel()), letOut(['cb'], 5, { where })));
  expect(change['bust']).toBeCloseTo(10, 9);
  const part = 100 / 170;
  expect(change['underbust']).toBeCloseTo(10 * part * part * (3 - 2 * part), 9);
});

test('above the highest level the full amount is reached at the end of the seam', () => {
  const moved = moveSeams(
    patternOf(straightPanel()),
    letOut(['cb'], 5, { where: { kind: 'above', level: at('bust') } }),
  );
  expect(pathStart(backEdge(moved.pattern.panels[0]!).path).x).toBeCloseTo(105, 9);
  expect(girthChange(moved)['bust']).toBe(0);
});

test('the line leaves the level without a kink, and again where the full amount is reached', () => {
  const moved = moveSeams(
    patternOf(curvedPanel()),
    letOut(['cb'], 6, { where: { kind: 'above', level: at('waist') } }),
  );
  const { segments } = backEdge(moved.pattern.panels[0]!).path;
  expect(segments.length).toBeGreaterThan(2);
  for (const [i, segment] of segments.slice(1).entries()) {
    const [end, start] = [tangentOn(segments[i]!, 1), tangentOn(segment, 0)];
    expect(Math.hypot(end.dx - start.dx, end.dy - start.dy)).toBeLessThan(1e-6);
  }
});

test('the moved seam meets the edges beside it on their own lines', () => {
  const panel = straightPanel();
  const sloped = { ...panel, name: 'sloped' };
  const moved = moveSeams(patternOf(sloped), letOut(['cf'], 20)).pattern.panels[0]!;
  expect(pathEnd(frontEdge(moved).path).y).toBe(-200);
  expect(pathStart(frontEdge(moved).path).y).toBe(180);
  expect(pathEnd(frontEdge(moved).path).x).toBeCloseTo(-20, 9);
});

test('a taper far shorter than the seam moves it all the same', () => {
  const pattern = patternOf(straightPanel());
  const between = { kind: 'between', levels: [at('hip', 30), at('hip')] } as const;
  const moved = moveSeams(pattern, letOut(['cb'], 10, { where: between })).pattern;
  const halfWay = [at('hip', 15)];
  expect(girth(moved, halfWay).levels[0]!.girth - girth(pattern, halfWay).levels[0]!.girth).toBeCloseTo(20, 2);
});

test('a square amount is the distance between the old line and the new, as with a seam gauge', () => {
  const moved = moveSeams(patternOf(straightPanel()), letOut(['cb'], 10, { square: true })).pattern.panels[0]!;
  const [upper] = backEdge(moved).path.segments;
  const { start, end } = upper!;
  const [dx, dy] = [end.x - start.x, end.y - start.y];
  const away = Math.abs(dx * (start.y - 0) - dy * (start.x - 80)) / Math.hypot(dx, dy);
  expect(away).toBeCloseTo(10, 9);
  expect(chordAt(moved, -100)!.toX - 90).toBeCloseTo((10 * Math.hypot(20, 200)) / 200, 9);
});

test('a square amount claims no length round the body: that follows from the slant of the seam', () => {
  const { change } = moveSeams(patternOf(straightPanel()), letOut(['cb'], 10, { square: true }));
  for (const level of change.seams[0]!.levels) expect(level).not.toHaveProperty('roundBody');
});

test('the report names the corners that moved and the lengths of every changed edge', () => {
  const moved = moveSeams(patternOf(straightPanel()), letOut(['cb'], 10));
  expect(moved.change.ends.map(({ corner }) => corner)).toEqual(['top-back', 'bottom-back']);
  for (const end of moved.change.ends) expect(end.distance).toBeCloseTo(10, 9);
  expect(moved.change.edges.map(({ edge }) => edge)).toEqual(['top', 'cb', 'bottom']);
  expect(moved.change.edges[0]).toMatchObject({ before: 100 });
  expect(moved.change.edges[0]!.after).toBeCloseTo(110, 9);
});

test('its input is left as it was', () => {
  const pattern = halfPattern();
  const copy = structuredClone(pattern);
  moveSeams(pattern, takeIn(['side', 'cb'], 5));
  expect(pattern).toEqual(copy);
});

test('both edges of a seam move alike, so that they still fit each other', () => {
  const moved = moveSeams(halfPattern(), letOut(['side'], 6, { where: { kind: 'below', level: at('waist') } }));
  expect(moved.findings).toEqual([]);
  expectSound(halfPattern(), moved.pattern);
});

test('a cutting line is drawn again where there is a way to, and left off where there is none', () => {
  const pattern = patternOf({ ...straightPanel(), cutting: { segments: straightPanel().edges[0]!.path.segments } });
  expect(moveSeams(pattern, letOut(['cb'], 5)).pattern.panels[0]).not.toHaveProperty('cutting');
  const again = moveSeams(pattern, letOut(['cb'], 5), (panel) => ({ ...panel, cutting: backEdge(panel).path })).pattern;
  expect(again.panels[0]!.cutting).toBe(backEdge(again.panels[0]!).path);
});

test('between two levels with none between them, the place half-way is told of with the rest', () => {
  const where = { kind: 'between', levels: [at('high-hip'), at('hip')] } as const;
  const { change } = moveSeams(patternOf(straightPanel()), letOut(['cb'], 5, { where }));
  expect(change.girth.map(({ level }) => level)).toEqual([
    'bust',
    'underbust',
    'waist',
    'high-hip',
    'waist-115mm',
    'hip',
  ]);
  expect(change.girth[4]!.after - change.girth[4]!.before).toBeCloseTo(10, 6);
  expect(change.seams[0]).toMatchObject({ most: 5 });
  expect(change.seams[0]!.levels[4]).toMatchObject({ level: 'waist-115mm', amount: 5, roundBody: 10 });
});

test('places typed with an offset are told of; named ones are not told twice', () => {
  const pattern = patternOf(straightPanel());
  const by = {
    kind: 'at',
    at: [
      { level: at('waist'), amount: 0 },
      { level: at('waist', 50), amount: 3 },
    ],
  } as const;
  expect(moveSeams(pattern, takeIn(['cb'], by)).change.girth.map(({ level }) => level)).toEqual([
    'bust',
    'underbust',
    'waist+50mm',
    'waist',
    'high-hip',
    'hip',
  ]);
  const where = { kind: 'below', level: at('waist'), fullAt: at('hip') } as const;
  expect(moveSeams(pattern, takeIn(['cb'], 3, { where })).change.girth).toHaveLength(5);
});

test('beyond the last named level the most that a line moves is still known', () => {
  const where = { kind: 'below', level: at('hip') } as const;
  const [seam] = moveSeams(patternOf(straightPanel()), letOut(['cb'], 5, { where })).change.seams;
  expect(seam!.most).toBe(5);
  expect(seam!.levels.every(({ amount }) => amount === 0)).toBe(true);
});
