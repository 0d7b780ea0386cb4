import { describe, expect, it } from 'vitest';
import { addAllowance } from '../../src/alterations/add-allowance.ts';
import { setGusset } from '../../src/alterations/gusset.ts';
import { moveSeams } from '../../src/alterations/move-seams.ts';
import { raiseLine } from '../../src/alterations/raise-line.ts';
import { redrawCutting } from '../../src/alterations/allowance/redraw-cutting.ts';
import { splitSides } from '../../src/alterations/split-sides.ts';
import { stripAllowance } from '../../src/alterations/strip-allowance.ts';
import { lengthTo, pathLength } from '../../src/geometry/arc-length.ts';
import { pathBox } from '../../src/geometry/box.ts';
import { tangentOn } from '../../src/geometry/evaluate.ts';
import { crossHorizontal } from '../../src/geometry/intersect.ts';
import { nearestPoint } from '../../src/geometry/nearest-point.ts';
import { pathEnd, pathStart } from '../../src/geometry/path.ts';
import { distance } from '../../src/geometry/point.ts';
import { dot } from '../../src/geometry/vector.ts';
import { checkPattern } from '../../src/pattern/check-pattern.ts';
import { girthAt } from '../../src/pattern/girth-at.ts';
import { findLevel, seamSidesOf, seamsOf } from '../../src/pattern/look-up.ts';
import { downwards } from '../../src/pattern/opening.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { hashGeometry } from '../../src/record/hash-geometry.ts';
import { expectSetIn, gussetsOf, intoSeam, intoSlit } from '../support/gussets.ts';
import { halfPattern as bodice } from '../support/half-pattern.ts';
import { expectSound } from '../support/invariants.ts';
import { at, letOut, takeIn } from '../support/moves.ts';
import {
  allShapes,
  corneredPanel,
  curvedPanel,
  halfPattern,
  mirrored,
  panelOf,
  patternOf,
  run,
  straightPanel,
  withNotches,
} from '../support/shaped-panels.ts';

const called = (panel: Panel, name: string, seams: readonly [string, string]): Panel => ({
  ...panel,
  name,
  edges: panel.edges.map((edge, i) => (i === 1 || i === 3 ? { ...edge, name: seams[i === 3 ? 0 : 1] } : edge)),
  notches: panel.notches.map((notch) => ({
    ...notch,
    edge: notch.edge === 'cf' ? seams[0] : notch.edge === 'cb' ? seams[1] : notch.edge,
  })),
});

/** Two panels that share the seam `side`; the shape of one in front, the shape of the other behind. */
const sewn = (front: Panel, back: Panel): Pattern => {
  return patternOf(called(front, 'fore', ['cf', 'side']), called(back, 'aft', ['side', 'cb']));
};

/** Both edges of the seam straight, upright and alike, so that every figure has a closed form. */
const upright = (): Pattern => {
  const straight = straightPanel();
  return sewn(straight, mirrored(straight));
};

const shapes = allShapes.flatMap((make) => [make(), mirrored(make())]);
const pairs = shapes.map((front, i) => [front.name + i, front, shapes[(i + 3) % shapes.length]!] as const);

const lowered = (panel: Panel, edge: string, y: number): Panel => {
  const { path } = panel.edges.find(({ name }) => name === edge)!;
  const { point } = crossHorizontal(path, y)[0]!;
  return { ...panel, notches: [{ edge, at: point, inner: { x: point.x + 3, y: point.y } }] };
};

describe('a gusset in a seam', () => {
  it.each(pairs)('has sides as long as its openings and leaves the panels as they are: %s', (_, front, back) => {
    expect.hasAssertions();
    for (const sides of ['straight', 'curved'] as const) {
      const pattern = sewn(withNotches(front), withNotches(back));
      const { pattern: after } = setGusset(pattern, intoSeam(90, { sides }));
      expectSetIn(pattern, after);
      expect(after.panels.map(({ name }) => name)).toEqual(['fore', 'side-gusset', 'aft']);
      const [gusset] = gussetsOf(after);
      expect(gusset!.edges.map(({ name }) => name)).toEqual(['side-gusset-back', 'bottom', 'side-gusset-front']);
      const bottom = gusset!.edges[1]!.path;
      expect(distance(pathStart(bottom), pathEnd(bottom))).toBeCloseTo(90, 6);
      expect(checkPattern(after).filter(({ weight }) => weight === 'error')).toEqual([]);
    }
  });

  it('adds to the girth its chord at every level: the width in proportion to the way down the side', () => {
    const pattern = upright();
    const { pattern: after, change } = setGusset(pattern, intoSeam(50, {}, 0));
    const slant = Math.hypot(25, 180) / 180;
    const side = 180 * slant;
    const expected: Record<string, number> = { bust: 0, underbust: 0, waist: 0, bottom: 2 * 50 };
    for (const [name, y] of [
      ['high-hip', 80],
      ['hip', 150],
    ] as const)
      expected[name] = (2 * 50 * y * slant) / side;
    for (const { level, before, after: now } of change.girth)
      expect(now - before, `girth at ${level}`).toBeCloseTo(expected[level]!, 6);
    expect(change.girth.map(({ level }) => level)).toEqual(
      Object.keys(expected).toSorted((a, b) => ORDER.indexOf(a) - ORDER.indexOf(b)),
    );
    expect(change.gussets).toMatchObject([
      { name: 'side-gusset', width: 50, points: [{ belowWaist: 0 }, { belowWaist: 0 }] },
    ]);
    expect(change.gussets[0]!.front).toBeCloseTo(side, 6);
    expect(girthAt(after, at('top')).girth).toBeCloseTo(girthAt(pattern, at('top')).girth, 9);
  });

  it('is measured at a level that it does not bear as far below the waist as on its neighbour', () => {
    const pattern = upright();
    const { pattern: after } = setGusset(pattern, intoSeam(50, {}, -30));
    const grown = (name: string, offset: number): number =>
      girthAt(after, at(name, offset)).girth - girthAt(pattern, at(name, offset)).girth;
    // The gusset stands as high as its bisector, so 60 mm below its apex its chord is 2 * 60 tan(half its angle).
    const side = 150 * (Math.hypot(25, 180) / 180);
    const chord = 2 * 60 * Math.tan(Math.asin(25 / side));
    expect(grown('waist', -90)).toBeCloseTo(2 * chord, 6);
    expect(grown('bust', -260)).toBeCloseTo(2 * chord, 6);
    expect(grown('underbust', 0)).toBe(0);
  });

  it('adds nothing at the level of its point or above, though its curved seam is longer down to the waist than high', () => {
    const pattern = bodice();
    for (const sides of ['straight', 'curved'] as const)
      for (const level of ['bust', 'waist']) {
        const place = { kind: 'seam', seam: 'bust-seam', below: at(level) } as const;
        const { pattern: after } = setGusset(pattern, { place, width: 40, sides });
        for (const offset of [0, 1, 20])
          expect(girthAt(after, at(level, offset)).girth, `${level}+${offset}mm`).toBe(
            girthAt(pattern, at(level, offset)).girth,
          );
        expect(girthAt(after, at(level, -10)).girth).toBeGreaterThan(girthAt(pattern, at(level, -10)).girth + 1);
      }
  });

  it('opens a typed length up from the bottom, along each edge', () => {
    const pattern = sewn(curvedPanel(), curvedPanel());
    const place = { kind: 'seam', seam: 'side', length: 120 } as const;
    const { pattern: after, change } = setGusset(pattern, { place, width: 40, sides: 'straight' });
    expectSetIn(pattern, after);
    expect(change.gussets[0]!.front).toBeCloseTo(120, 3);
    expect(change.gussets[0]!.back).toBeCloseTo(120, 3);
  });

  it('tells where the two edges of its seam reach its point at different depths', () => {
    const lower = panelOf({
      name: 'aft',
      seams: ['side', 'cb'],
      top: run([0, -200], [100, -200]),
      back: run([100, -200], [80, 0], [105, 180]),
      bottom: run([105, 180], [-5, 188]),
      front: run([-5, 188], [20, 0], [0, -200]),
      levels: { waist: 0 },
    });
    const pattern = patternOf(straightPanel('fore', ['cf', 'side']), lower);
    const up = setGusset(pattern, { place: { kind: 'seam', seam: 'side', length: 120 }, width: 40, sides: 'straight' });
    expect(up.findings).toMatchObject([
      { kind: 'points-apart', where: 'panel side-gusset', cure: expect.stringMatching(/true --seam side$/) },
    ]);
    const told = Number(/([\d.]+) mm lower along the seam on aft than on fore/.exec(up.findings[0]!.message)![1]);
    expect(told).toBeCloseTo(Math.hypot(25, 188) - Math.hypot(25, 180), 2);
    expect(checkPattern(up.pattern)).toContainEqual(up.findings[0]);
    const level = setGusset(pattern, intoSeam(40));
    expect(level.findings).toEqual([]);
    expect(setGusset(pattern, intoSeam(40, {}, 0)).findings).toEqual([]);
  });

  it('stands on its bisector with a base square to both sides', () => {
    const { pattern } = setGusset(sewn(straightPanel(), curvedPanel()), intoSeam(70));
    const { front, back } = seamSidesOf(gussetsOf(pattern)[0]!)!;
    const [down, up] = [tangentOn(back.path.segments[0]!, 0), tangentOn(front.path.segments[0]!, 0)];
    expect(down.dx).toBeCloseTo(up.dx, 9);
    const base = gussetsOf(pattern)[0]!.edges[1]!.path.segments[0]!;
    expect(dot(down, tangentOn(base, 0))).toBeCloseTo(0, 9);
    expect(dot(up, tangentOn(base, 1))).toBeCloseTo(0, 9);
    expect(gussetsOf(pattern)[0]!.grain!.from.x).toBe(gussetsOf(pattern)[0]!.grain!.to.x);
  });

  it('bears the notches of both edges below the point, as far from its apex', () => {
    const pattern = sewn(withNotches(corneredPanel()), withNotches(curvedPanel()));
    const marked: Pattern = {
      ...pattern,
      panels: [lowered(pattern.panels[0]!, 'side', 120), lowered(pattern.panels[1]!, 'side', 130)],
    };
    const { pattern: after } = setGusset(marked, intoSeam(60));
    const gusset = gussetsOf(after)[0]!;
    for (const panel of after.panels.filter((own) => !own.gusset)) {
      const path = downwards(panel.edges.find(({ name }) => name === 'side')!.path);
      const [slit] = panel.slits!;
      const below =
        lengthTo(path, nearestPoint(path, panel.notches[0]!.at).location) -
        lengthTo(path, nearestPoint(path, slit!.at).location);
      const side = panel.name === 'fore' ? 'side-gusset-front' : 'side-gusset-back';
      const notches = gusset.notches.filter(({ edge }) => edge === side);
      expect(notches).toHaveLength(1);
      expect(distance(notches[0]!.at, { x: 0, y: 0 })).toBeCloseTo(below, 3);
      expect(panel.notches).toHaveLength(1);
    }
  });

  it('gets a notch half-way down where an edge has none, on the panel too', () => {
    const pattern = upright();
    const { pattern: after } = setGusset(pattern, intoSeam(60));
    expectSetIn(pattern, after);
    const [fore, gusset, aft] = after.panels;
    expect([fore, gusset, aft].map((panel) => panel!.notches.length)).toEqual([1, 2, 1]);
    const length = pathLength(seamSidesOf(gusset!)!.front.path);
    for (const notch of gusset!.notches) expect(distance(notch.at, { x: 0, y: 0 })).toBeCloseTo(length / 2, 3);
  });

  it('lies on a named level where its sides are sewn to that level', () => {
    const { pattern } = setGusset(upright(), intoSeam(60));
    const gusset = gussetsOf(pattern)[0]!;
    expect(gusset.levels.map(({ name }) => name)).toEqual(['high-hip', 'hip']);
    const slant = Math.hypot(25, 180) / 180;
    const path = downwards(seamSidesOf(gusset)!.front.path);
    const crossing = crossHorizontal(path, findLevel(gusset, 'hip')!.y)[0]!;
    expect(lengthTo(path, crossing.location)).toBeCloseTo((150 - 40) * slant, 6);
    expect(gusset.gusset!.waistY).toBeCloseTo(-40, 9);
  });

  it('crosses the waist where it begins above it, and lies on the sheet by that', () => {
    const { pattern } = setGusset(upright(), intoSeam(60, {}, 50));
    const gusset = gussetsOf(pattern)[0]!;
    expect(gusset.levels.map(({ name }) => name)).toEqual(['waist', 'high-hip', 'hip']);
    expect(gusset.gusset!.waistY).toBe(findLevel(gusset, 'waist')!.y);
  });
});

/** Of the leaning panel only a tenth stands above its own bottom edge. */
const slitShapes = shapes.map(
  (shape, i) => [shape.name + i, shape, shape.name !== 'tilted' ? 0.4 : i % 2 === 0 ? 0.1 : 0.9] as const,
);

const ORDER = ['bust', 'underbust', 'waist', 'high-hip', 'hip', 'bottom'];

describe('a gusset in a slit', () => {
  it.each(slitShapes)('runs straight down to the bottom edge: %s', (_, shape, fraction) => {
    const pattern = patternOf(withNotches(shape));
    const { pattern: after, change } = setGusset(pattern, intoSlit(shape.name, fraction, 30));
    expectSetIn(pattern, after);
    const [host, gusset] = after.panels;
    const [slit] = host!.slits!;
    const chord = crossHorizontal(host!.edges[3]!.path, 40)[0]!.point.x;
    expect(slit!.at.y).toBe(40);
    expect(slit!.at.x).toBeGreaterThan(chord);
    expect(slit!.to.x).toBe(slit!.at.x);
    expect(nearestPoint(host!.edges[2]!.path, slit!.to).distance).toBeLessThan(0.001);
    expect(change.gussets[0]!.front).toBeCloseTo(slit!.to.y - 40, 3);
    expect(gusset!.name).toBe(`${shape.name}-gusset`);
    expect(gusset!.notches).toEqual([]);
  });

  it('begins a typed length above the bottom where its level is the bottom', () => {
    const pattern = patternOf(straightPanel());
    const place = { kind: 'slit', panel: 'straight', level: at('bottom'), fraction: 0.5, length: 100 } as const;
    const { pattern: after } = setGusset(pattern, { place, width: 30, sides: 'curved' });
    expectSetIn(pattern, after);
    expect(after.panels[0]!.slits![0]).toMatchObject({ at: { x: 50, y: 80 }, to: { x: 50, y: 180 } });
  });

  it('may stand beside another, with a name of its own', () => {
    const first = setGusset(patternOf(straightPanel()), intoSlit('straight', 0.3, 30)).pattern;
    const { pattern } = setGusset(first, intoSlit('straight', 0.7, 30));
    expect(pattern.panels.map(({ name }) => name)).toEqual(['straight', 'straight-gusset', 'straight-gusset-2']);
    expect(pattern.panels[0]!.slits).toHaveLength(2);
    expect(checkPattern(pattern).filter(({ weight }) => weight === 'error')).toEqual([]);
  });
});

describe('a gusset set in anew', () => {
  it('takes the place of the one of its name', () => {
    const pattern = halfPattern();
    const once = setGusset(pattern, intoSeam(60, { name: 'godet' })).pattern;
    const again = setGusset(once, intoSeam(60, { name: 'godet' }));
    expect(hashGeometry(again.pattern)).toBe(hashGeometry(once));
    expect(again.change.gussets[0]!.replaced).toBe(true);
    const wider = setGusset(once, intoSeam(80, { name: 'godet' })).pattern;
    expectSetIn(once, wider);
    expect(gussetsOf(wider)).toHaveLength(1);
    const moved = setGusset(once, { ...intoSlit('front', 0.5, 40), name: 'godet' }).pattern;
    expect(moved.panels.flatMap(({ name, slits = [] }) => slits.map(({ gusset }) => [name, gusset]))).toEqual([
      ['front', 'godet'],
    ]);
  });
});

describe('left and right', () => {
  it('get one each where a seam is named, the same as a pair that is split afterwards', () => {
    const pattern = halfPattern();
    const first = splitSides(setGusset(pattern, intoSeam(60)).pattern).pattern;
    const split = splitSides(pattern).pattern;
    const { pattern: after, change } = setGusset(split, intoSeam(60));
    expectSetIn(split, after);
    expect(change.gussets.map(({ name, side }) => [name, side])).toEqual([
      ['side-gusset-left', 'left'],
      ['side-gusset-right', 'right'],
    ]);
    expect(gussetsOf(after).map(({ edges }) => edges.map(({ name }) => name))).toEqual(
      gussetsOf(first).map(({ edges }) => edges.map(({ name }) => name)),
    );
    expect(after).toEqual(first);
  });

  it('get one on one side alone where a panel of that side is slit', () => {
    const split = splitSides(halfPattern()).pattern;
    const { pattern } = setGusset(split, intoSlit('front-right', 0.5, 40));
    expectSetIn(split, pattern);
    expect(gussetsOf(pattern)).toMatchObject([{ name: 'front-gusset-right', side: 'right' }]);
    expect(seamsOf(pattern).map(({ name }) => name)).toContain('front-gusset-front');
  });
});

describe('a gusset with allowance', () => {
  const widths = { all: 15, byEdge: { bottom: 25 } };
  const styles = ['mitre', 'square', 'folded'] as const;

  it.each(styles)('has a cutting line that is blunt at the apex and comes off again: %s', (style) => {
    const { pattern } = setGusset(halfPattern(), intoSeam(60));
    const cut = addAllowance(pattern, widths, { default: style }).pattern;
    expectSound(pattern, cut, []);
    const gusset = gussetsOf(cut)[0]!;
    expect(pathBox(gusset.cutting!).minY).toBeCloseTo(-15, 2);
    expect(checkPattern(cut).filter(({ kind }) => kind !== 'mates-differ')).toEqual([]);
    expect(gussetsOf(stripAllowance(cut, { byEdge: {} }).pattern)[0]!.edges).toEqual(gussetsOf(pattern)[0]!.edges);
  });

  it('gets its own from what it is set into', () => {
    const cut = addAllowance(halfPattern(), widths, { default: 'mitre', bottom: 'folded' }).pattern;
    const { pattern } = setGusset(cut, intoSeam(60), redrawCutting);
    expectSetIn(cut, pattern);
    const gusset = gussetsOf(pattern)[0]!;
    expect(gusset.edges.map(({ allowance, corners }) => [allowance, corners])).toEqual([
      [15, undefined],
      [25, 'folded'],
      [15, undefined],
    ]);
    expect(gusset.cutting).toBeDefined();
  });
});

const along = (own: Pattern): number => {
  const panel = own.panels[1]!;
  const { path } = panel.edges[1]!;
  const waist = crossHorizontal(path, 0)[0]!.location;
  return lengthTo(path, nearestPoint(path, panel.slits![0]!.at).location) - lengthTo(path, waist);
};

describe('altering what a gusset is set into', () => {
  it('keeps the point of an open seam as far along the seam from the waist', () => {
    const pattern = setGusset(halfPattern(), intoSeam(60)).pattern;
    const { pattern: after, findings } = moveSeams(pattern, letOut(['side'], 8));
    expectSound(pattern, after);
    expect(along(after)).toBeCloseTo(along(pattern), 3);
    expect(findings.filter(({ kind }) => kind === 'gusset-differs')).toEqual([]);
  });

  it('tells of a gusset that no longer fits, and so does a check', () => {
    const pattern = setGusset(upright(), intoSeam(60)).pattern;
    const { pattern: after, findings } = moveSeams(pattern, {
      ...letOut(['side'], 60),
      where: { kind: 'below', level: at('waist', -60) },
    });
    expectSound(pattern, after);
    const told = findings.filter(({ kind }) => kind === 'gusset-differs');
    expect(told).toHaveLength(2);
    expect(told[0]).toMatchObject({ where: 'panel side-gusset' });
    expect(told[0]!.message).toMatch(/^its front side is \d+\.\d\d mm shorter than its opening on fore$/);
    expect(told[0]!.cure).toContain('--name side-gusset');
    expect(checkPattern(after).filter(({ kind }) => kind === 'gusset-differs')).toEqual(told);
    const mended = setGusset(after, intoSeam(60, { name: 'side-gusset' })).pattern;
    expect(checkPattern(mended).filter(({ kind }) => kind.startsWith('gusset'))).toEqual([]);
  });

  it('ends a slit on the bottom edge again', () => {
    const pattern = setGusset(patternOf(straightPanel()), intoSlit('straight', 0.5, 30)).pattern;
    const { pattern: after } = moveSeams(pattern, letOut(['cb'], 10));
    expectSound(pattern, after);
    expect(after.panels[0]!.slits).toEqual(pattern.panels[0]!.slits);
  });

  it.each([
    ['high-hip', 6],
    ['hip', 5],
    ['waist', -6],
  ])('raises %s with the gusset, which stays whole', (level, amount) => {
    const pattern = setGusset(setGusset(halfPattern(), intoSeam(60)).pattern, intoSlit('front', 0.4, 40)).pattern;
    const { pattern: after } = raiseLine(pattern, { levels: [at(level)], amount, hold: [] });
    expectSound(pattern, after);
    expect(checkPattern(after).filter(({ weight }) => weight === 'error')).toEqual([]);
  });

  it.each([
    ['below the part that moves', -100],
    ['in the part that moves', -20],
    ['at the waist', 0],
  ])('keeps every width when the waist goes up above a gusset that begins %s', (name, offset) => {
    const pattern = setGusset(halfPattern(), intoSlit('front', 0.4, 40, offset)).pattern;
    const { pattern: after, change } = raiseLine(pattern, { levels: [at('waist')], amount: 6, hold: [] });
    for (const { level, before: was, after: is } of change.girth) expect(is, `${name}, ${level}`).toBeCloseTo(was, 1);
    const [before, now] = [gussetsOf(pattern)[0]!, gussetsOf(after)[0]!];
    expect(now.gusset!.waistY).toBeCloseTo(before.gusset!.waistY - 6, 6);
    expectSound(pattern, after);
  });

  it('takes in the gusset itself by its own side', () => {
    const pattern = setGusset(upright(), intoSeam(60)).pattern;
    const { pattern: after, change } = moveSeams(pattern, {
      ...takeIn(['side-gusset-front'], 5),
      where: { kind: 'below', level: at('waist', -60) },
    });
    expectSound(pattern, after, [
      { panel: 'side-gusset', edge: 'side-gusset-front' },
      { panel: 'side-gusset', edge: 'bottom' },
    ]);
    const hip = change.girth.find(({ level }) => level === 'hip')!;
    expect(hip.after - hip.before).toBeCloseTo(-10, 2);
    const gusset = gussetsOf(after)[0]!;
    const [was, is] = [gussetsOf(pattern)[0]!, gusset].map(
      (panel) => panel.notches.find(({ edge }) => edge.endsWith('front'))!.at,
    );
    const length = (panel: Panel, p: typeof was): number => {
      const path = downwards(seamSidesOf(panel)!.front.path);
      return lengthTo(path, nearestPoint(path, p!).location);
    };
    expect(length(gusset, is)).toBeCloseTo(length(gussetsOf(pattern)[0]!, was), 3);
  });
});
