import { describe, expect, test } from 'vitest';
import { slash } from '../../src/alterations/slash.ts';
import type { Slash } from '../../src/alterations/slash-options.ts';
import { redrawCutting } from '../../src/alterations/allowance/redraw-cutting.ts';
import { pathLength } from '../../src/geometry/arc-length.ts';
import { cornersOf } from '../../src/geometry/corners.ts';
import { nearestPoint } from '../../src/geometry/nearest-point.ts';
import { pathEnd, pathStart } from '../../src/geometry/path.ts';
import { distance, point, type Point } from '../../src/geometry/point.ts';
import { chordAt } from '../../src/pattern/chord.ts';
import { findLevel, sidesOf } from '../../src/pattern/look-up.ts';
import { outlineOf } from '../../src/pattern/outline.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import { expectSound } from '../support/invariants.ts';
import { at } from '../support/moves.ts';
import {
  allShapes,
  curvedPanel,
  farthestApart,
  halfPattern,
  mirrored,
  patternOf,
  straightPanel,
  swingingPanel,
  withNotches,
} from '../support/shaped-panels.ts';
import { boxPanel, parallel, slashing } from '../support/slashes.ts';

const slashed = (panel: Panel, what: Slash) => {
  const before = patternOf(panel);
  const result = slash(before, { ...what, panel: panel.name });
  expectSound(before, result.pattern);
  return { ...result, panel: result.pattern.panels[0]! };
};

const degrees = (radians: number): number => (radians * 180) / Math.PI;

/** The angle that opens `spread` at `radius`, by the law of cosines, in radians: another road than the one of the code. */
const angleOf = (spread: number, radius: number): number => Math.acos(1 - (spread * spread) / (2 * radius * radius));

const turned = (p: Point, about: Point, clockwise: number): Point => {
  const [dx, dy] = [p.x - about.x, p.y - about.y];
  return {
    x: about.x + dx * Math.cos(clockwise) - dy * Math.sin(clockwise),
    y: about.y + dx * Math.sin(clockwise) + dy * Math.cos(clockwise),
  };
};

const expectAt = (p: Point, q: Point, within = 1e-6): void => expect(distance(p, q)).toBeLessThan(within);

describe('a rectangle opened at the bottom and hinged at the top', () => {
  const angle = angleOf(25, 380);
  const before = boxPanel();
  const what = slashing({ hinge: at('top'), spread: 25 });

  test.each([
    ['front', [0, -angle]],
    ['back', [angle, 0]],
    ['middle', [angle / 2, -angle / 2]],
  ] as const)('keeping the %s turns its parts by the angle of the opening', (keep, turns) => {
    const { panel, change } = slashed(before, { ...what, keep });
    expect(change.turns).toEqual(turns.map((turn) => expect.closeTo(turn, 9)));
    const hinge = point(50, -200);
    const [front, back] = turns;
    expectAt(pathStart(sidesOf(panel)!.front.path), turned(point(0, 180), hinge, front));
    expectAt(pathEnd(sidesOf(panel)!.back.path), turned(point(100, 180), hinge, back));
  });

  test('keeps the lengths of the hinge edge and of both seams, and hinges at one slight corner', () => {
    const { panel } = slashed(before, what);
    const { top, front, back } = sidesOf(panel)!;
    expect(pathLength(top.path)).toBeCloseTo(100, 9);
    expect(pathLength(front.path)).toBeCloseTo(380, 9);
    expect(pathLength(back.path)).toBeCloseTo(380, 9);
    expect(cornersOf(top.path)).toEqual([1]);
    expectAt(top.path.segments[0]!.end, point(50, -200));
  });

  test('a kept part and its seam are the very same', () => {
    const { panel } = slashed(before, { ...what, keep: 'front' });
    expect(sidesOf(panel)!.front).toBe(sidesOf(before)!.front);
    expectAt(pathStart(sidesOf(panel)!.top.path), point(0, -200));
  });

  test('the bottom is one line without a corner that keeps each part away from the gap', () => {
    const { panel } = slashed(before, { ...what, keep: 'front' });
    const { bottom } = sidesOf(panel)!;
    expect(cornersOf(bottom.path)).toEqual([]);
    const kept = [0, 10, 20, 30].map((x) => nearestPoint(bottom.path, point(x, 180)).distance);
    expect(Math.max(...kept)).toBeLessThan(0.001);
    const moved = [70, 80, 90].map((x) => turned(point(x, 180), point(50, -200), -angle));
    expect(Math.max(...moved.map((p) => nearestPoint(bottom.path, p).distance))).toBeLessThan(0.001);
  });
});

test('each part follows the one before it: three slashes turn by half an angle, then by a whole', () => {
  const { change } = slashed(boxPanel(), slashing({ hinge: at('top'), spread: 5, lines: 3 }));
  const angle = angleOf(5, 380);
  expect(change.turns).toEqual([1.5, 0.5, -0.5, -1.5].map((part) => expect.closeTo(angle * part, 9)));
});

test('with an even number of slashes the middle part keeps its grain exactly', () => {
  const { change } = slashed(curvedPanel(), slashing({ from: 'top', hinge: at('bottom'), lines: 2 }));
  expect(change.turns[1]).toBe(0);
  expect(Math.sign(change.turns[0]!)).toBe(-1);
  expect(Math.sign(change.turns[2]!)).toBe(1);
});

describe('hinged at a level', () => {
  test('nothing beyond the level changes: the very same edge and segments', () => {
    const before = curvedPanel();
    const { panel, change } = slashed(before, slashing({ lines: 3 }));
    const [old, now] = [sidesOf(before)!, sidesOf(panel)!];
    expect(now.top).toBe(old.top);
    expect(now.back.path.segments[0]).toBe(old.back.path.segments[0]);
    expect(now.front.path.segments.at(-1)).toBe(old.front.path.segments.at(-1));
    for (const { level, before: was, after } of change.girth.slice(0, 3)) {
      expect([level, after]).toEqual([level, expect.closeTo(was, 6)]);
    }
    expect(change.girth.at(-1)!.after - change.girth.at(-1)!.before).toBeGreaterThan(20);
  });

  test.each(['top', 'bottom'] as const)('from the %s, a level between levels holds its chord too', (from) => {
    const before = curvedPanel();
    const y = -30;
    const { panel } = slashed(before, slashing({ from, hinge: at('waist', 30), lines: 2 }));
    const [was, is] = [chordAt(before, y)!, chordAt(panel, y)!];
    expect(is.fromX).toBeCloseTo(was.fromX, 6);
    expect(is.toX).toBeCloseTo(was.toX, 6);
  });

  test('the seam leaves the level without a corner and is rigid from half-way on', () => {
    const { panel, change } = slashed(boxPanel(), slashing({ spread: 10 }));
    const hinge = point(50, 0);
    const { back, front } = sidesOf(panel)!;
    expect(cornersOf(back.path)).toEqual([]);
    for (const y of [100, 140, 180]) {
      expect(nearestPoint(back.path, turned(point(100, y), hinge, change.turns[1]!)).distance).toBeLessThan(0.002);
      expect(nearestPoint(front.path, turned(point(0, y), hinge, change.turns[0]!)).distance).toBeLessThan(0.002);
    }
    expectAt(pathEnd(back.path), turned(point(100, 180), hinge, change.turns[1]!));
  });

  test('the seams say how much they lost', () => {
    const { change } = slashed(boxPanel(), slashing({ spread: 10 }));
    const lost = change.edges.filter(({ edge }) => edge !== 'bottom').map(({ before, after }) => after - before);
    // The hinge lies 50 mm from each seam, which turns by half the angle: 50 sin(angle / 2), the slack of the curve apart.
    const given = 50 * Math.sin(angleOf(10, 180) / 2);
    expect(lost).toEqual([expect.closeTo(-given, 0), expect.closeTo(-given, 0)]);
  });
});

describe('parallel', () => {
  test.each(allShapes.map((shape) => [shape().name, shape()] as const))(
    'on the %s panel every width changes by all the openings together, at every level',
    (_, before) => {
      for (const spread of [4, -3]) {
        const { panel, change } = slashed(before, parallel({ from: 'top', spread, lines: 2 }));
        for (const { y } of before.levels) {
          expect(chordAt(panel, y)!.width - chordAt(before, y)!.width).toBeCloseTo(2 * spread, 6);
        }
        expect(change.turns).toEqual([0, 0, 0]);
        const seams = change.edges.filter(({ edge }) => edge === 'cf' || edge === 'cb');
        for (const seam of seams) expect(seam.after).toBeCloseTo(seam.before, 6);
      }
    },
  );

  test('from top and from bottom are one and the same', () => {
    const [one, other] = (['top', 'bottom'] as const).map((from) =>
      slashed(curvedPanel(), parallel({ from, lines: 3 })),
    );
    expect(farthestApart(outlineOf(one!.panel), outlineOf(other!.panel))).toBeLessThan(0.01);
  });

  test('from a seam it lengthens the panel: the part with the waist stays, all beyond moves away', () => {
    const before = boxPanel();
    const { panel } = slashed(before, parallel({ from: 'cb', spread: 8, at: [at('waist', 50), at('waist', -50)] }));
    const heights = Object.fromEntries(panel.levels.map(({ name, y }) => [name, y]));
    expect(heights).toEqual({ bust: -178, underbust: -108, waist: 0, 'high-hip': 88, hip: 158 });
    expect(sidesOf(panel)!.top.path.segments).toHaveLength(1);
    expectAt(pathStart(sidesOf(panel)!.top.path), point(0, -208));
    expectAt(pathStart(sidesOf(panel)!.bottom.path), point(100, 188));
    expect(pathLength(sidesOf(panel)!.back.path)).toBeCloseTo(380 + 16, 9);
    expect(pathLength(sidesOf(panel)!.front.path)).toBeCloseTo(380 + 16, 9);
  });
});

const notch = (of: Panel, edge: string): Point => of.notches.find((each) => each.edge === edge)!.at;

describe('from a seam to the seam opposite', () => {
  const tuck = slashing({ from: 'cb', hinge: at('cf'), at: [at('waist')], spread: -6 });

  test('a tuck along the waist turns both halves evenly and leaves the waist where it is', () => {
    const { panel, change } = slashed(boxPanel(), tuck);
    const angle = angleOf(6, 100);
    expect(change.turns).toEqual([expect.closeTo(angle / 2, 9), expect.closeTo(-angle / 2, 9)]);
    expect(findLevel(panel, 'waist')!.y).toBe(0);
    expect(pathLength(sidesOf(panel)!.front.path)).toBeCloseTo(380, 9);
    expect(pathLength(sidesOf(panel)!.back.path)).toBeCloseTo(380 - 6, 1);
    expect(cornersOf(sidesOf(panel)!.back.path)).toEqual([]);
    expectAt(pathStart(sidesOf(panel)!.back.path), turned(point(100, -200), point(0, 0), angle / 2));
    expectAt(pathEnd(sidesOf(panel)!.back.path), turned(point(100, 180), point(0, 0), -angle / 2));
  });

  test('above the waist only what is above turns; its levels lie level through where their middle went', () => {
    const before = withNotches(boxPanel());
    const { panel, change } = slashed(before, { ...tuck, at: [at('waist', 40)], spread: 6 });
    const angle = angleOf(6, 100);
    expect(change.turns).toEqual([expect.closeTo(-angle, 9), 0]);
    const hinge = point(0, -40);
    expect(findLevel(panel, 'bust')!.y).toBeCloseTo(turned(point(50, -170), hinge, -angle).y, 9);
    expect(findLevel(panel, 'waist')!.y).toBe(0);
    expect(findLevel(panel, 'hip')!.y).toBe(150);
    expect(sidesOf(panel)!.bottom).toBe(sidesOf(before)!.bottom);
    expectAt(notch(panel, 'top'), turned(notch(before, 'top'), hinge, -angle));
    expect(notch(panel, 'bottom')).toEqual(notch(before, 'bottom'));
  });

  test('a level along a slash goes with the part towards the waist', () => {
    const { panel } = slashed(boxPanel(), { ...tuck, at: [at('high-hip'), at('bust')], spread: 6 });
    const heights = Object.fromEntries(panel.levels.map(({ name, y }) => [name, y]));
    expect(heights).toMatchObject({ bust: -170, waist: 0, 'high-hip': 80 });
    expect(heights['hip']).toBeGreaterThan(152);
  });

  test('equal slashes part the seam between top and bottom', () => {
    const { change } = slashed(boxPanel(), slashing({ from: 'cf', hinge: at('cb'), lines: 3, spread: 2 }));
    expect(change.turns).toHaveLength(4);
    expect(change.turns.filter((turn) => turn === 0)).toHaveLength(1);
  });
});

test.each(allShapes.flatMap((shape) => [shape(), mirrored(shape())].map((panel) => [panel.name, panel] as const)))(
  'the %s panel comes out sound whichever way it is slashed, its cutting line too',
  (_, panel) => {
    const marked = withNotches(panel);
    const wide = { ...marked, edges: marked.edges.map((edge) => ({ ...edge, allowance: 8 })) };
    const before = patternOf(redrawCutting(wide));
    const ways: Slash[] = [
      slashing({ lines: 3, spread: 3 }),
      slashing({ from: 'top', lines: 2, spread: -2 }),
      slashing({ from: 'top', hinge: at('bottom'), lines: 3 }),
      slashing({ from: 'bottom', hinge: at('top'), spread: -3, keep: 'back' }),
      parallel({ lines: 2 }),
      slashing({ from: 'cb', hinge: at('cf'), at: [at('high-hip', -30)], spread: 4 }),
      slashing({ from: 'cf', hinge: at('cb'), at: [at('waist', 50), at('bust', -20)], spread: -3 }),
      parallel({ from: 'cb', at: [at('underbust')], spread: 5 }),
    ];
    for (const what of ways) {
      const after = slash(before, { ...what, panel: panel.name }, redrawCutting).pattern;
      expectSound(before, after);
      expect(after.panels[0]!.cutting).toBeDefined();
    }
  },
);

test('up to twenty slashes keep to the nodes allowed, and the hinge edge its length to a hundredth of a millimetre', () => {
  for (const lines of [6, 7, 12, 20]) {
    for (const hinge of ['top', 'waist']) {
      const { panel } = slashed(boxPanel(), slashing({ hinge: at(hinge), lines, spread: 1.5 }));
      expect(Math.abs(pathLength(sidesOf(panel)!.top.path) - 100)).toBeLessThan(0.01);
    }
  }
});

test('only the slashed panel changes, and the seams that no longer match are named', () => {
  const before = halfPattern();
  const { pattern, findings } = slash(before, slashing({ panel: 'side-front', lines: 2, spread: 12, keep: 'front' }));
  expectSound(before, pattern);
  for (const index of [0, 2, 3]) expect(pattern.panels[index]).toBe(before.panels[index]);
  const named = findings.filter(({ kind }) => kind === 'mates-differ').map(({ where }) => where);
  expect(named).toEqual(['seam side, below the waist']);
});

test('a grainline stays; on a part that was overlapped away from under it, it goes along upright', () => {
  const grain = { from: point(50, -100), to: point(50, 100) };
  expect(slashed({ ...boxPanel(), grain }, slashing({ lines: 3 })).panel.grain).toBe(grain);
  const atBack = { from: point(95, -100), to: point(95, 100) };
  const { panel } = slashed({ ...boxPanel(), grain: atBack }, parallel({ spread: -20, keep: 'front' }));
  expect(panel.grain).toEqual({ from: point(75, -100), to: point(75, 100) });
});

/** How far the outline lies from the drawn one after a slashing and its opposite. */
const thereAndBack = (panel: Panel, what: Slash): number => {
  const there = slash(patternOf(panel), { ...what, panel: panel.name }).pattern;
  const again = slash(there, { ...what, panel: panel.name, spread: -what.spread }).pattern.panels[0]!;
  return farthestApart(outlineOf(panel), outlineOf(again));
};

describe('overlapping what was opened comes back', () => {
  test.each([
    ['box, hinged at a level', boxPanel(), slashing(), 0.05],
    ['box, right through to a hinge', boxPanel(), slashing({ hinge: at('top') }), 0.05],
    ['box, parallel', boxPanel(), parallel({ lines: 3 }), 1e-6],
    ['straight, hinged at a level', straightPanel(), slashing(), 0.05],
    ['curved, hinged at a level', curvedPanel(), slashing(), 0.05],
    ['curved, three to a level', curvedPanel(), slashing({ lines: 3, spread: 3 }), 0.05],
    ['curved, parallel', curvedPanel(), parallel({ from: 'top' }), 0.05],
    [
      'curved, across to the seam opposite',
      curvedPanel(),
      slashing({ from: 'cb', hinge: at('cf'), at: [at('high-hip')], spread: 4 }),
      0.1,
    ],
  ])('%s', (_, panel, what, within) => {
    expect(thereAndBack(panel, what)).toBeLessThan(within);
  });

  test('opening what was overlapped cannot give back the drawing under the overlap, but nearly', () => {
    expect(thereAndBack(curvedPanel(), slashing({ spread: -4 }))).toBeLessThan(0.1);
    expect(thereAndBack(curvedPanel(), slashing({ spread: -4, lines: 3 }))).toBeLessThan(0.3);
  });
});

test('a seam that passes the hinge several times turns from its last passing on', () => {
  const before = swingingPanel();
  const { panel } = slashed(before, slashing({ spread: 8, keep: 'front' }));
  expect(sidesOf(panel)!.front).toBe(sidesOf(before)!.front);
  expect(sidesOf(panel)!.back.path.segments.slice(0, 2)).toEqual(sidesOf(before)!.back.path.segments.slice(0, 2));
  expect(degrees(slashed(before, slashing({ spread: 8 })).change.turns[0]!)).toBeGreaterThan(1);
});
