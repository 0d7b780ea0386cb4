import { describe, expect, it } from 'vitest';
import { stripAllowance } from '../../src/alterations/strip-allowance.ts';
import { signedArea } from '../../src/geometry/area.ts';
import { unlabelledPattern } from '../../src/labelling/unlabelled-pattern.ts';
import { outlineOf } from '../../src/pattern/outline.ts';
import { expectSoundPanel } from '../support/invariants.ts';
import { circle } from '../support/shapes.ts';
import { box, closed, drawing, open, outline, stroke } from './drawn.ts';

describe('plain outlines without a word', () => {
  it('are panels by id or number from left to right, with edges by their corners', () => {
    const drawn = drawing(
      [outline(box(300, 0, 90, 300)), outline(box(0, 0, 80, 300)), outline(box(150, 0, 80, 300), 'side')],
      [stroke(open([-4, 100], [6, 100]), 'n'), stroke(open([40, 50], [40, 250]), 'grain')],
    );
    const { pattern, findings } = unlabelledPattern(drawn, 'mm');
    expect(pattern.panels.map(({ name }) => name)).toEqual(['panel-1', 'side', 'panel-3']);
    expect(pattern.panels[0]!.edges.map(({ name }) => name)).toEqual(['edge-1', 'edge-2', 'edge-3', 'edge-4']);
    expect(pattern.panels[0]!.edges[0]!.path).toEqual(open([0, 0], [80, 0]));
    expect(pattern.panels[0]!.notches).toEqual([{ edge: 'edge-4', at: { x: 0, y: 100 }, inner: { x: 6, y: 100 } }]);
    expect(pattern.panels[0]!.grain).toEqual({ from: { x: 40, y: 50 }, to: { x: 40, y: 250 } });
    expect(findings.map(({ kind }) => kind)).toEqual(['not-labelled']);
  });

  it('can be stripped all round, or by edge', () => {
    const { pattern } = unlabelledPattern(drawing([outline(box(10, 20, 80, 300))]), 'in');
    const [even] = stripAllowance(pattern, { all: 15, byEdge: {} }).pattern.panels;
    expect(signedArea(outlineOf(even!))).toBeCloseTo(50 * 270, 6);
    const [uneven] = stripAllowance(pattern, { all: 15, byEdge: { 'edge-1': 5 } }).pattern.panels;
    expect(signedArea(outlineOf(uneven!))).toBeCloseTo(50 * 280, 6);
    expectSoundPanel(uneven!);
  });

  it('with bevelled corners are stripped to the corner that was sewn', () => {
    const bevelled = closed([0, 10], [10, 0], [70, 0], [80, 10], [80, 290], [65, 300], [0, 300]);
    const { pattern } = unlabelledPattern(drawing([outline(bevelled)]), 'mm');
    expect(pattern.panels[0]!.edges).toHaveLength(4);
    const [net] = stripAllowance(pattern, { all: 15, byEdge: {} }).pattern.panels;
    expect(signedArea(outlineOf(net!))).toBeCloseTo(50 * 270, 6);
  });

  it('without corners are one edge', () => {
    const { pattern } = unlabelledPattern(drawing([outline(circle(100))]), 'mm');
    expect(pattern.panels[0]!.edges.map(({ name }) => name)).toEqual(['edge-1']);
    const [net] = stripAllowance(pattern, { all: 15, byEdge: {} }).pattern.panels;
    expect(signedArea(outlineOf(net!)) / (Math.PI * 85 * 85)).toBeCloseTo(1, 3);
  });

  it('take a small triangle on the line for a notch', () => {
    const notch = closed([80, 95], [74, 100], [80, 105]);
    const { pattern } = unlabelledPattern(drawing([outline(box(0, 0, 80, 300)), outline(notch)]), 'mm');
    expect(pattern.panels[0]!.notches).toEqual([{ edge: 'edge-2', at: { x: 80, y: 100 }, inner: { x: 74, y: 100 } }]);
  });
});
