/**
 * Seam allowances as they were and are sold, on a panel with known answers.
 *
 * - 5/8 in on patterns for home sewing: common practice, no textbook read.
 * - 3/8 in as "regulation" seam: M. Conover, A Complete Course in Dressmaking, vol. 5, 1922, p. 18.
 * - 1 in on length seams and 1/4 in at neck and armhole: A. L. Baldt, Clothing for Women, 1916.
 *
 * The panel's area and length with mitred corners are arithmetic; its area with rounded ones is Steiner's formula.
 */

import { areaPathsD, differenceD, EndType, FillRule, inflatePathsD, JoinType, type PathD } from 'clipper2-ts';
import { describe, expect, it } from 'vitest';
import { addAllowance } from '../../src/alterations/add-allowance.ts';
import { stripAllowance } from '../../src/alterations/strip-allowance.ts';
import { pathLength } from '../../src/geometry/arc-length.ts';
import { signedArea } from '../../src/geometry/area.ts';
import { tangentOn } from '../../src/geometry/evaluate.ts';
import { flattenPath } from '../../src/geometry/flatten.ts';
import type { Path } from '../../src/geometry/path.ts';
import { turn } from '../../src/geometry/vector.ts';
import { labelDrawing } from '../../src/labelling/label-drawing.ts';
import { outlineOf } from '../../src/pattern/outline.ts';
import { cutOut, expectSameEdges } from '../alterations/cut-out.ts';
import { answers, box, drawing, open, outline, stroke } from '../labelling/drawn.ts';
import { curvedPanel, patternOf } from '../support/shaped-panels.ts';

const INCH = 25.4;

const SOLD = [
  { name: '5/8 in, home patterns (common practice)', widths: { all: (5 / 8) * INCH, byEdge: {} } },
  { name: '3/8 in, Conover 1922', widths: { all: (3 / 8) * INCH, byEdge: {} } },
  { name: '1 in on length seams, 1/4 in above, Baldt 1916', widths: { all: INCH, byEdge: { top: INCH / 4 } } },
];

const MITRE = { default: 'mitre' } as const;

describe.each(SOLD)('an allowance of $name', ({ widths }) => {
  it('goes on and comes off again within 0.03 mm', () => {
    expect.hasAssertions();
    const panel = curvedPanel();
    const { pattern } = addAllowance(patternOf(panel), widths, MITRE);
    expectSameEdges(stripAllowance(cutOut(pattern.panels[0]!), widths).pattern.panels[0]!, panel, 0.03);
  });

  it('is kept to the thousandth of a millimetre, not to the nearest half centimetre', () => {
    const drawn = drawing([outline(box(0, 0, 200, 300))], [stroke(open([-5, 150], [205, 150]), 'waist')]);
    const given = answers({ line: 'cutting', panels: ['front'], seams: ['cf', 'cb'] });
    const [net] = stripAllowance(labelDrawing(drawn, given).pattern, widths).pattern.panels;
    const { fromX, toX } = net!.levels[0]!;
    expect(toX - fromX).toBeCloseTo(200 - 2 * widths.all, 3);
  });
});

it('5/8 in sold as 1.5 cm would be 0.875 mm less on every edge', () => {
  expect((5 / 8) * INCH - 15).toBeCloseTo(0.875, 9);
});

it('round 200 x 300 mm, 15 mm with mitred corners: 1120 mm long, 75900 square mm', () => {
  const drawn = drawing([outline(box(0, 0, 200, 300))], [stroke(open([-5, 150], [205, 150]), 'waist')]);
  const { pattern } = labelDrawing(drawn, answers({ panels: ['front'], seams: ['cf', 'cb'] }));
  const { cutting } = addAllowance(pattern, { all: 15, byEdge: {} }, MITRE).pattern.panels[0]!;
  expect(pathLength(cutting!)).toBeCloseTo(1120, 6);
  expect(signedArea(cutting!)).toBeCloseTo(75_900, 6);
});

const polygon = (path: Path): PathD => flattenPath(path, 0.0005).map(({ x, y }) => ({ x, y }));

it('covers all that a circle of its width rolled round the panel covers, by another library', () => {
  const panel = patternOf(curvedPanel());
  const { cutting } = addAllowance(panel, { all: 15, byEdge: {} }, MITRE).pattern.panels[0]!;
  const rolled = inflatePathsD(
    [polygon(outlineOf(panel.panels[0]!))],
    15,
    JoinType.Round,
    EndType.Polygon,
    2,
    5,
    0.001,
  );
  const outside = differenceD(rolled, [polygon(cutting!)], FillRule.NonZero, 5);
  expect(Math.abs(areaPathsD(outside))).toBeLessThan(0.01 * pathLength(cutting!));
  const tips = differenceD([polygon(cutting!)], rolled, FillRule.NonZero, 5);
  // What a mitre adds over a round corner: (tan(turn/2) - turn/2) d^2, summed over the four corners.
  const { edges } = panel.panels[0]!;
  const turns = edges.map(({ path }, at) => {
    const next = edges[(at + 1) % edges.length]!.path;
    return turn(tangentOn(path.segments.at(-1)!, 1), tangentOn(next.segments[0]!, 0));
  });
  const added = turns.reduce((sum, angle) => sum + (Math.tan(angle / 2) - angle / 2) * 225, 0);
  expect(Math.abs(Math.abs(areaPathsD(tips)) - added)).toBeLessThan(0.002 * pathLength(cutting!));
});
