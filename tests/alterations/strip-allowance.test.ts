import { assert, constantFrom, double, property } from 'fast-check';
import { describe, expect, it } from 'vitest';
import { StaywrightError } from '../../src/errors.ts';
import { signedArea } from '../../src/geometry/area.ts';
import { addAllowance } from '../../src/alterations/add-allowance.ts';
import type { AllowanceWidths } from '../../src/alterations/allowance/allowance-widths.ts';
import { stripAllowance } from '../../src/alterations/strip-allowance.ts';
import type { Point } from '../../src/geometry/point.ts';
import { line } from '../../src/geometry/segment.ts';
import { outlineOf } from '../../src/pattern/outline.ts';
import type { Edge, Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { boxPattern } from '../support/box-pattern.ts';
import { expectSound } from '../support/invariants.ts';
import { allShapes, curvedPanel, halfPattern, mirrored, patternOf } from '../support/shaped-panels.ts';
import { cutOut, expectSameEdges } from './cut-out.ts';
import { caught } from '../support/caught.ts';

const all = (width: number): AllowanceWidths => ({ all: width, byEdge: {} });

const cutting = (pattern: Pattern): Pattern => ({
  ...pattern,
  panels: pattern.panels.map((panel): Panel => ({ ...panel, line: 'cutting' })),
});

describe('strip-allowance', () => {
  it('takes a width of its own off each edge of a rectangle, notches and levels with it', () => {
    const drawn = cutting(boxPattern(1));
    const { pattern, change, findings } = stripAllowance(drawn, { all: 15, byEdge: { top: 6, cb: 10 } });
    const [panel] = pattern.panels;
    expect(panel!.line).toBe('stitching');
    expect(signedArea(outlineOf(panel!))).toBeCloseTo((80 - 25) * (360 - 21), 6);
    expect(panel!.notches).toEqual([{ edge: 'cb', at: { x: 70, y: 60 }, inner: { x: 64, y: 60 } }]);
    expect(panel!.levels.map(({ fromX, toX }) => [fromX, toX])).toEqual([
      [15, 70],
      [15, 70],
      [15, 70],
    ]);
    expect(panel!.grain).toEqual(drawn.panels[0]!.grain);
    expect(change.edges).toEqual([
      { edge: 'top', width: 6 },
      { edge: 'cb', width: 10 },
      { edge: 'bottom', width: 15 },
      { edge: 'cf', width: 15 },
    ]);
    expect(change.panels).toEqual([{ panel: 'panel-1', areaBefore: 28_800, areaAfter: 55 * 339 }]);
    expect(findings).toEqual([]);
    expectSound(drawn, pattern);
  });

  it('leaves its input as it was', () => {
    const drawn = cutting(halfPattern());
    const before = JSON.stringify(drawn);
    stripAllowance(drawn, all(10));
    expect(JSON.stringify(drawn)).toBe(before);
  });

  it('drops the cutting line that was added, and gives back the very same edges', () => {
    const net = halfPattern();
    const { pattern } = addAllowance(net, all(15), { default: 'folded' });
    const stripped = stripAllowance(pattern, { byEdge: {} });
    expect(stripped.pattern).toEqual(net);
    expect(stripped.findings).toEqual([]);
    expect(stripped.change.edges.map(({ width }) => width)).toEqual([15, 15, 15, 15, 15, 15, 15]);
    expect(stripAllowance(pattern, all(10)).findings.map(({ kind }) => kind)).toEqual(['widths-not-used']);
  });

  it('refuses a net sheet', () => {
    const { code, message } = caught(() => stripAllowance(halfPattern(), all(15)));
    expect(code).toBe('input');
    expect(message).toBe('carries no seam allowance: its edges are the stitching line');
  });

  it.each([
    [{ all: 15, byEdge: { 'fornt-side': 10 } }, "no edge is called 'fornt-side'", 'did you mean front-side?'],
    [
      { byEdge: { top: 10 } },
      'no width for front-side, bottom, cf, side, side-back, cb',
      'give one width for all, and others by name: --allowance 15mm --allowance top=6mm',
    ],
    [{ all: -1, byEdge: {} }, 'an allowance cannot be less than nothing', undefined],
  ] as const)('refuses %j', (widths, message, hint) => {
    const error = caught(() => stripAllowance(cutting(halfPattern()), widths));
    expect([error.code, error.message]).toEqual(['usage', message]);
    expect(error.hint).toBe(hint);
  });

  it('refuses an allowance larger than a panel, and the largest that it names works', () => {
    const drawn = cutting(patternOf(curvedPanel()));
    const { code, message, hint, where } = caught(() => stripAllowance(drawn, all(40)));
    expect([code, message, where]).toEqual([
      'impossible',
      'the panel is too small for an allowance of 40.00 mm',
      'panel curved',
    ]);
    const largest = Number(/^the largest that works here is ([\d.]+)mm$/.exec(hint!)![1]);
    expect(largest).toBeGreaterThan(25);
    expect(() => stripAllowance(drawn, all(largest))).not.toThrow();
    expect(() => stripAllowance(drawn, all(largest + 0.2))).toThrow(StaywrightError);
  });

  it('names the edge of which nothing would be left', () => {
    const drawn = outlined(
      ['top', 0, -180],
      ['point', 40, -186],
      ['cb', 80, -180],
      ['bottom', 80, 180],
      ['cf', 0, 180],
    );
    const error = caught(() => stripAllowance(drawn, { all: 2, byEdge: { cb: 38.5, point: 0 } }));
    expect(error.message).toBe('nothing would be left of its edge point for an allowance of 38.50 mm');
    expect(error.hint).toMatch(/the widest can be \d/);
  });

  it('says what else is wrong where the panel is not too small', () => {
    const slit = outlined(
      ['top', 0, -180],
      ['slit', 40, -180],
      ['top-2', 40, -90],
      ['top-3', 40.01, -180],
      ['cb', 80, -180],
      ['bottom', 80, 180],
      ['cf', 0, 180],
    );
    const { message, hint } = caught(() => stripAllowance(slit, all(5)));
    expect(message).toBe(
      'an allowance of 5.00 mm cannot be taken off: the corner at (40.0, -90.0) is too sharp for a mitre',
    );
    expect(hint).toBe('blunt the corner, or offset its edges by less');
  });

  it('says so where the two edges of a seam differ once stripped', () => {
    const box = cutting(boxPattern(2));
    expect(stripAllowance(box, all(5)).findings).toEqual([]);
    const drawn: Pattern = { ...box, panels: [leaning(box.panels[0]!, 60), box.panels[1]!] };
    const { findings } = stripAllowance(drawn, { all: 20, byEdge: { bottom: 10 } });
    expect(findings.map(({ kind, where }) => `${kind}: ${where}`)).toEqual([
      'mates-differ: seam seam-1, above the waist',
      'mates-differ: seam seam-1, below the waist',
    ]);
    for (const { cure } of findings) expect(cure).toMatch(/^check the widths/);
  });
});

/** A pattern of one panel without marks; each edge of its cutting line by its name and where it starts. */
const outlined = (...corners: readonly (readonly [name: string, x: number, y: number])[]): Pattern => {
  const [panel] = cutting(boxPattern(1)).panels;
  const edges = corners.map(([name, x, y], at): Edge => {
    const [, endX, endY] = corners[(at + 1) % corners.length]!;
    return { name, path: { segments: [line({ x, y }, { x: endX, y: endY })] } };
  });
  return { ...boxPattern(1), panels: [{ ...panel!, edges, notches: [] }] };
};

/** The panel with its lower right corner moved out, without notches. */
const leaning = (panel: Panel, by: number): Panel => {
  const lean = (p: Point): Point => (p.x > 0 && p.y > 0 ? { ...p, x: p.x + by } : p);
  const moved = (edge: Edge): Edge => ({
    name: edge.name,
    path: { segments: edge.path.segments.map(({ start, end }) => line(lean(start), lean(end))) },
  });
  return { ...panel, notches: [], edges: panel.edges.map(moved) };
};

/** The swinging panel's hook is tighter than an allowance is wide: its cutting line fills it, and no one can tell it from that any more. */
const OPEN_SHAPES = allShapes.map((make) => make()).filter((panel) => panel.name !== 'swinging');
const SHAPES = [...OPEN_SHAPES, ...OPEN_SHAPES.map(mirrored)];

describe('add, then strip what another drawing gives of it', () => {
  const styles = ['mitre', 'square', 'folded'] as const;
  const cases = SHAPES.flatMap((panel, at) =>
    styles.map((style) => [`${panel.name}${at < OPEN_SHAPES.length ? '' : ', mirrored'}`, style, panel] as const),
  );

  it.each(cases)('%s, %s: every edge within 0.03 mm', (_, style, panel) => {
    expect.hasAssertions();
    const { pattern } = addAllowance(patternOf(panel), all(15.875), { default: style });
    const drawn = cutOut(pattern.panels[0]!);
    const { pattern: stripped } = stripAllowance(drawn, all(15.875));
    expectSameEdges(stripped.panels[0]!, panel, 0.03);
    expectSound(drawn, stripped);
  });

  it('21.3 mm with square corners on a leaning panel: the step between two widths is no part of the outline', () => {
    expect.hasAssertions();
    const panel = SHAPES.find(({ name }) => name === 'tilted')!;
    const widths = { all: 21.3, byEdge: { top: 17.04, bottom: 17.04 } };
    const { pattern } = addAllowance(patternOf(panel), widths, { default: 'square' });
    const { pattern: stripped } = stripAllowance(cutOut(pattern.panels[0]!), widths);
    expectSameEdges(stripped.panels[0]!, panel, 0.03);
  });

  it('any width from 3 to 25 mm, another at top and bottom', () => {
    expect.hasAssertions();
    assert(
      property(
        constantFrom(...SHAPES),
        constantFrom(...styles),
        double({ min: 3, max: 25, noNaN: true }),
        double({ min: 0.8, max: 1.25, noNaN: true }),
        (panel, style, width, ratio) => {
          const widths = { all: width, byEdge: { top: width * ratio, bottom: width * ratio } };
          const { pattern } = addAllowance(patternOf(panel), widths, { default: style });
          const { pattern: stripped } = stripAllowance(cutOut(pattern.panels[0]!), widths);
          expectSameEdges(stripped.panels[0]!, panel, 0.03);
        },
      ),
      { numRuns: 25 },
    );
  });
});
