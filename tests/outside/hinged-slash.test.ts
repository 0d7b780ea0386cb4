/**
 * Slashes on shapes whose answers follow from plane geometry alone.
 *
 * A slash that is opened by w at the distance r from its hinge turns by 2 asin(w / 2r), the angle at the apex of an isosceles triangle:
 * 25 mm at 200 mm are 7.166643 degrees (computed here). Gores are frusta of cones developed, whose radii follow from Pythagoras, as in
 * Longfield, "Sheet Metal Drafting", 1921 (read); the frustum with waist 700 and hip 980 over 200 is computed here.
 */

import { expect, test } from 'vitest';
import { slash } from '../../src/alterations/slash.ts';
import { pathLength } from '../../src/geometry/arc-length.ts';
import { pathEnd, pathStart } from '../../src/geometry/path.ts';
import { distance, point, type Point } from '../../src/geometry/point.ts';
import { chordAt } from '../../src/pattern/chord.ts';
import { sidesOf } from '../../src/pattern/look-up.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import { at } from '../support/moves.ts';
import { panelOf, patternOf, run } from '../support/shaped-panels.ts';
import { parallel, slashing } from '../support/slashes.ts';

/** A rectangle with its top at the height 0. */
const rectangle = (width: number, height: number): Panel =>
  panelOf({
    name: 'box',
    seams: ['cf', 'cb'],
    top: run([0, 0], [width, 0]),
    back: run([width, 0], [width, height]),
    bottom: run([width, height], [0, height]),
    front: run([0, height], [0, 0]),
    levels: { waist: height / 2 },
  });

const corners = (panel: Panel): Point[] => {
  const { front, back } = sidesOf(panel)!;
  return [pathEnd(front.path), pathStart(back.path), pathEnd(back.path), pathStart(front.path)];
};

test('25 mm at 200 mm turn by 7.166643 degrees', () => {
  const box = rectangle(120, 200);
  const { change } = slash(patternOf(box), slashing({ hinge: at('top'), spread: 25, keep: 'front' }));
  expect((Math.abs(change.turns[1]!) * 180) / Math.PI).toBeCloseTo(7.166643, 6);
  expect(change.turns[0]).toBe(0);
});

test('the mouth measures the opening: the bottom corners are as far apart as an isosceles trapezium with that opening says', () => {
  const [width, height, opening] = [120, 200, 25];
  const before = rectangle(width, height);
  const after = slash(patternOf(before), slashing({ hinge: at('top'), spread: opening })).pattern.panels[0]!;
  const half = Math.asin(opening / (2 * height));
  const [, , back, front] = corners(after);
  // Each half is a rectangle turned by half the angle about the top's middle: its outer corner lies at these distances from the axis.
  const out = (width / 2) * Math.cos(half) + height * Math.sin(half);
  expect(distance(front!, back!)).toBeCloseTo(2 * out, 9);
  expect(height * Math.sin(half)).toBeCloseTo(opening / 2, 12);
});

test('a rectangle opened by many slashes is the polygon of a ring sector: its hinge edge keeps its length, each strip its own', () => {
  const [width, height, opening, lines] = [120, 200, 3, 5];
  const before = rectangle(width, height);
  const { pattern } = slash(patternOf(before), slashing({ hinge: at('top'), spread: opening, lines, keep: 'front' }));
  const after = pattern.panels[0]!;
  const strip = width / (lines + 1);
  const angle = 2 * Math.asin(opening / (2 * height));
  // The strips' hinge sides are chords laid end to end, each turned by one more angle than the one before it.
  let [x, y] = [0, 0];
  for (let i = 0; i <= lines; i += 1) {
    x += strip * Math.cos(i * angle);
    y -= strip * Math.sin(i * angle);
  }
  const [, topBack, bottomBack] = corners(after);
  expect(distance(topBack!, point(x, y))).toBeLessThan(1e-9);
  const down = point(x + height * Math.sin(lines * angle), y + height * Math.cos(lines * angle));
  expect(distance(bottomBack!, down)).toBeLessThan(1e-9);
  expect(pathLength(sidesOf(after)!.top.path)).toBeCloseTo(width, 2);
  expect(pathLength(sidesOf(after)!.back.path)).toBeCloseTo(height, 9);
  // Strips and mouths are the chords of the bottom's polygon; the fair line through them is longer by the slack of its arc alone.
  const polygon = width + lines * opening;
  const bottom = pathLength(sidesOf(after)!.bottom.path);
  expect(Math.abs(bottom - polygon)).toBeLessThan(0.1);
});

/** One of twelve gores of the frustum: y is the distance from the apex along its middle line. */
const gore = (
  upperRound: number,
  lowerRound: number,
  height: number,
): { panel: Panel; inner: number; outer: number } => {
  const [upper, lower] = [upperRound / (2 * Math.PI), lowerRound / (2 * Math.PI)];
  const slant = Math.hypot(height, lower - upper);
  const outer = (slant * lower) / (lower - upper);
  const inner = outer - slant;
  const half = lowerRound / outer / 24;
  const corner = (radius: number, side: 1 | -1) => [side * radius * Math.sin(half), radius * Math.cos(half)] as const;
  const panel = panelOf({
    name: 'gore',
    seams: ['cf', 'cb'],
    top: run(corner(inner, -1), corner(inner, 1)),
    back: run(corner(inner, 1), corner(outer, 1)),
    bottom: run(corner(outer, 1), corner(outer, -1)),
    front: run(corner(outer, -1), corner(inner, -1)),
    levels: { waist: corner((inner + outer) / 2, 1)[1] },
  });
  return { panel, inner, outer };
};

test('a gore slashed parallel keeps its height and its slant, and every chord grows by the opening', () => {
  const { panel, inner, outer } = gore(700, 980, 200);
  expect(outer - inner).toBeCloseTo(204.9046, 4);
  const { pattern } = slash(patternOf(panel), parallel({ panel: 'gore', from: 'top', spread: 6 }));
  const after = pattern.panels[0]!;
  const { front, back, top, bottom } = sidesOf(after)!;
  for (const seam of [front, back]) expect(pathLength(seam.path)).toBeCloseTo(outer - inner, 6);
  for (const part of [0.1, 0.5, 0.9]) {
    const y = pathStart(back.path).y + part * (pathEnd(back.path).y - pathStart(back.path).y);
    expect(chordAt(after, y)!.width - chordAt(panel, y)!.width).toBeCloseTo(6, 9);
  }
  expect([top, bottom].map((edge) => edge.path.segments.length)).toEqual([1, 1]);
  expect(pathStart(bottom.path).y - pathStart(top.path).y).toBeCloseTo(
    pathStart(sidesOf(panel)!.bottom.path).y - pathStart(sidesOf(panel)!.top.path).y,
    9,
  );
});

/** How far a line leans off the upright, in radians. */
const lean = (from: Point, to: Point): number => Math.atan2(to.x - from.x, to.y - from.y);

test('a gore opened from below about its upper edge is flatter by the angles, as a cone of more sector', () => {
  const { panel, inner, outer } = gore(700, 980, 200);
  const half = 980 / outer / 24;
  const { pattern, change } = slash(patternOf(panel), slashing({ panel: 'gore', hinge: at('top'), spread: 10 }));
  const { front, back } = sidesOf(pattern.panels[0]!)!;
  // Each seam of the gore leans by the half angle of its sector; now by half the angle of the opening as well.
  const opened = 2 * Math.asin(10 / (2 * (outer - inner) * Math.cos(half)));
  expect(lean(pathStart(back.path), pathEnd(back.path))).toBeCloseTo(half + opened / 2, 9);
  expect(lean(pathEnd(front.path), pathStart(front.path))).toBeCloseTo(-half - opened / 2, 9);
  expect(change.turns[1]! - change.turns[0]!).toBeCloseTo(-opened, 9);
});
