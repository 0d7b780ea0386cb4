import { describe, expect, it } from 'vitest';
import { addAllowance } from '../../src/alterations/add-allowance.ts';
import { redrawCutting } from '../../src/alterations/allowance/redraw-cutting.ts';
import { isInside, signedArea } from '../../src/geometry/area.ts';
import { flattenPath } from '../../src/geometry/flatten.ts';
import { intersectPaths } from '../../src/geometry/intersect.ts';
import { nearestPoint } from '../../src/geometry/nearest-point.ts';
import type { Path } from '../../src/geometry/path.ts';
import { point, type Point } from '../../src/geometry/point.ts';
import { reversePath } from '../../src/geometry/reverse-path.ts';
import { line } from '../../src/geometry/segment.ts';
import { outlineOf } from '../../src/pattern/outline.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import { boxPattern } from '../support/box-pattern.ts';
import { expectSound } from '../support/invariants.ts';
import { allShapes, curvedPanel, mirrored, panelOf, patternOf, run } from '../support/shaped-panels.ts';
import { caught } from '../support/caught.ts';

/** Whether a line passes through a place, to a thousandth of a millimetre. */
const passes = (path: Path, p: Point): boolean => nearestPoint(path, p).distance < 0.0015;

/** Straight sides, the back seam leaning out by `lean` over its 300 mm. */
const leaning = (lean: number): Panel =>
  panelOf({
    name: 'leaning',
    seams: ['cf', 'cb'],
    top: run([0, -150], [100, -150]),
    back: run([100, -150], [100 + lean, 150]),
    bottom: run([100 + lean, 150], [0, 150]),
    front: run([0, 150], [0, -150]),
    levels: { waist: 0 },
  });

describe('add-allowance', () => {
  it('draws a rectangle round a rectangle', () => {
    const before = boxPattern(1);
    const { pattern, change, findings } = addAllowance(before, { all: 15, byEdge: { top: 6 } }, { default: 'mitre' });
    const [panel] = pattern.panels;
    expect(signedArea(panel!.cutting!)).toBeCloseTo((80 + 30) * (360 + 21), 6);
    expect(panel!.line).toBe('stitching');
    expect(panel!.edges.map((edge) => edge.allowance)).toEqual([6, 15, 15, 15]);
    expect(change.panels).toEqual([{ panel: 'panel-1', areaBefore: 28_800, areaAfter: 110 * 381 }]);
    expect(findings).toEqual([]);
    expectSound(before, pattern, []);
  });

  it('cuts nothing on a fold, and draws no line where no edge has a width', () => {
    const { pattern } = addAllowance(boxPattern(1), { all: 15, byEdge: { cf: 0 } }, { default: 'mitre' });
    expect(signedArea(pattern.panels[0]!.cutting!)).toBeCloseTo((80 + 15) * (360 + 30), 6);
    const none = addAllowance(boxPattern(1), { all: 0, byEdge: {} }, { default: 'folded' });
    expect(none.pattern.panels[0]!.cutting).toBeUndefined();
  });

  it('replaces what was added before', () => {
    const once = addAllowance(boxPattern(1), { all: 20, byEdge: {} }, { default: 'folded' }).pattern;
    const twice = addAllowance(once, { all: 15, byEdge: {} }, { default: 'mitre' }).pattern;
    expect(twice).toEqual(addAllowance(boxPattern(1), { all: 15, byEdge: {} }, { default: 'mitre' }).pattern);
  });

  it.each(
    [...allShapes, ...allShapes.map((make) => () => mirrored(make()))].flatMap((make) =>
      (['mitre', 'square', 'folded'] as const).map((style) => [make().name, style, make] as const),
    ),
  )('round the %s panel, %s: closed, outside the stitching line and never nearer than its width', (_, style, make) => {
    const before = patternOf(make());
    const { pattern } = addAllowance(before, { all: 15, byEdge: {} }, { default: style });
    expectSound(before, pattern, []);
    const { cutting } = pattern.panels[0]!;
    const net = outlineOf(pattern.panels[0]!);
    const seams = pattern.panels[0]!.edges.filter(({ name }) => name === 'cf' || name === 'cb');
    for (const p of flattenPath(net, 0.1)) expect(isInside(cutting!, p)).toBe(true);
    const gaps = flattenPath(cutting!, 0.1).map((p) => nearestPoint(net, p).distance);
    // A flap that folds in leaves the seam less than its width beyond the edge, never beside the seam itself.
    expect(Math.min(...gaps)).toBeGreaterThan(style === 'folded' ? 0 : 14.98);
    expect(seams).toHaveLength(2);
  });

  it('keeps what each edge asks for, so that the cutting line can be drawn again', () => {
    const { pattern } = addAllowance(
      patternOf(curvedPanel()),
      { all: 15, byEdge: { bottom: 25 } },
      { default: 'mitre', bottom: 'folded' },
    );
    const [panel] = pattern.panels;
    expect(panel!.edges.map(({ corners }) => corners)).toEqual([undefined, undefined, 'folded', undefined]);
    expect(redrawCutting(panel!).cutting).toEqual(panel!.cutting);
  });

  it('square: cuts the seam off at right angles where its stitching line, run on, meets the edge', () => {
    const lean = 100;
    const { pattern } = addAllowance(
      patternOf(leaning(lean)),
      { all: 15, byEdge: { bottom: 24 } },
      { default: 'square' },
    );
    const { cutting } = pattern.panels[0]!;
    const length = Math.hypot(lean, 300);
    const along = { x: lean / length, y: 300 / length };
    const met = point(200 + (24 / along.y) * along.x, 174);
    expect(passes(cutting!, met)).toBe(true);
    const tip = point(met.x + 15 * along.y, met.y - 15 * along.x);
    expect(passes(cutting!, tip)).toBe(true);
    expect(passes(cutting!, point((met.x + tip.x) / 2, (met.y + tip.y) / 2))).toBe(true);
  });

  it('folded: beyond the edge the cutting line is the mirror image of the seam’s', () => {
    const { pattern } = addAllowance(
      patternOf(leaning(100)),
      { all: 15, byEdge: { bottom: 40 } },
      { default: 'folded' },
    );
    const { cutting } = pattern.panels[0]!;
    const across = (y: number): number[] =>
      intersectPaths(cutting!, { segments: [line(point(-100, y), point(400, y))] })
        .map((crossing) => crossing.point.x)
        .toSorted((a, b) => a - b);
    for (const beyond of [5, 20, 39]) {
      for (const [at, x] of across(150 + beyond).entries()) expect(x).toBeCloseTo(across(150 - beyond)[at]!, 2);
    }
    const width = (15 * Math.hypot(100, 300)) / 300;
    expect(across(150 - 20)[1]).toBeCloseTo(200 - 20 / 3 + width, 2);
  });

  it.each(['top', 'bottom'] as const)('folded: the flap of a curved panel lies on it when turned back (%s)', (name) => {
    const panel = curvedPanel();
    const { pattern } = addAllowance(patternOf(panel), { all: 15, byEdge: {} }, { default: 'mitre', [name]: 'folded' });
    const { cutting } = pattern.panels[0]!;
    const { path } = panel.edges.find((one) => one.name === name)!;
    const ends = [path, reversePath(path)].map(({ segments: [first] }) => ({
      at: first!.start,
      towards: first!.kind === 'cubic' ? first!.startHandle : first!.end,
    }));
    for (const { at, towards } of ends) {
      const size = Math.hypot(towards.x - at.x, towards.y - at.y);
      const [ux, uy] = [(towards.x - at.x) / size, (towards.y - at.y) / size];
      const height = (p: Point): number => Math.abs((p.x - at.x) * uy - (p.y - at.y) * ux);
      const image = (p: Point): Point => {
        const along = (p.x - at.x) * ux + (p.y - at.y) * uy;
        return point(at.x + 2 * along * ux - (p.x - at.x), at.y + 2 * along * uy - (p.y - at.y));
      };
      const flap = flattenPath(cutting!, 0.01).filter(
        (p) => Math.hypot(p.x - at.x, p.y - at.y) < 25 && !isAlong(p, at, ux, uy) && height(p) < 14.5,
      );
      expect(flap.length).toBeGreaterThan(0);
      for (const p of flap) expect(nearestPoint(cutting!, image(p)).distance).toBeLessThan(0.02);
    }
  });

  it('refuses panels whose edges are cutting lines already', () => {
    const cut = {
      ...boxPattern(1),
      panels: boxPattern(1).panels.map((panel): Panel => Object.assign({}, panel, { line: 'cutting' })),
    };
    const error = caught(() => addAllowance(cut, { all: 15, byEdge: {} }, { default: 'mitre' }));
    expect([error.code, error.message]).toEqual(['input', 'already carries seam allowance']);
  });

  it('refuses flaps that would cross each other', () => {
    const spike = panelOf({
      name: 'spike',
      seams: ['cf', 'cb'],
      top: run([0, -100], [100, -100]),
      back: run([100, -100], [60, 100]),
      bottom: run([60, 100], [40, 100]),
      front: run([40, 100], [0, -100]),
      levels: { waist: 0 },
    });
    const deep = { all: 10, byEdge: { top: 320 } };
    const error = caught(() => addAllowance(patternOf(spike), deep, { default: 'folded' }));
    expect([error.code, error.where]).toEqual(['impossible', 'panel spike']);
  });
});

/** Whether a place of the cutting line lies beside the inner stretch of the edge, and so belongs to the edge's own cutting line. */
const isAlong = (p: Point, at: Point, ux: number, uy: number): boolean => (p.x - at.x) * ux + (p.y - at.y) * uy > 0;
