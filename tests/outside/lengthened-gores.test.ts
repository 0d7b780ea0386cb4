/**
 * Length put in or taken out inside a piece: what is known of the result without the program.
 *
 * The gore is one of twelve of a cone's frustum, waist 700 and hip 980 round, 200 high: slant 204.9046 (Pythagoras), by the
 * development rules of Longfield, "Sheet Metal Drafting", 1921, pp. 91 and 128 (rules read there, figures computed here).
 *
 * Kinne and Cooley, "Clothing and Health", 1916, lesson 11 (read): a length is altered inside the piece and not at its bottom, so that
 * the flare survives and the outline runs on evenly. A fold on the line takes up twice its depth (common practice, as taught at
 * Central Washington University, read). A slanting seam that got longer is no shorter than the straight line between its ends.
 */

import { describe, expect, test } from 'vitest';
import { changeLength } from '../../src/alterations/change-length.ts';
import { raiseLine } from '../../src/alterations/raise-line.ts';
import { pathLength } from '../../src/geometry/arc-length.ts';
import { pathEnd, pathStart } from '../../src/geometry/path.ts';
import { distance } from '../../src/geometry/point.ts';
import { chordAt } from '../../src/pattern/chord.ts';
import { backEdge, bottomEdge, findLevel, frontEdge, topEdge } from '../../src/pattern/look-up.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import { at } from '../support/moves.ts';
import { panelOf, patternOf, run } from '../support/shaped-panels.ts';

const SLANT = Math.hypot(200, (980 - 700) / (2 * Math.PI));
const [UPPER, LOWER] = [700 / 24, 980 / 24];
/** The height of the gore on paper: its seam is as long as the slant. */
const HEIGHT = Math.sqrt(SLANT ** 2 - (LOWER - UPPER) ** 2);

/** A gore with straight seams, its top at the waist, with a hip level 40 mm from its bottom. */
const gore = (): Panel =>
  panelOf({
    name: 'gore',
    seams: ['one', 'two'],
    top: run([-UPPER, 0], [UPPER, 0]),
    back: run([UPPER, 0], [LOWER, HEIGHT]),
    bottom: run([LOWER, HEIGHT], [-LOWER, HEIGHT]),
    front: run([-LOWER, HEIGHT], [-UPPER, 0]),
    levels: { waist: 0, 'high-hip': 80, hip: HEIGHT - 40 },
  });

const longer = (amount: number) =>
  changeLength(patternOf(gore()), { between: [at('high-hip'), at('hip')], direction: 'longer', amount }).pattern
    .panels[0]!;

describe.each([25, 12.7, -20])('a gore lengthened by %d mm between two levels', (amount) => {
  const after = longer(amount);

  test('keeps the chords of its ends, which lie farther apart by the amount', () => {
    expect(SLANT).toBeCloseTo(204.9046, 4);
    expect(distance(pathStart(topEdge(after).path), pathEnd(topEdge(after).path))).toBeCloseTo(2 * UPPER, 9);
    expect(distance(pathStart(bottomEdge(after).path), pathEnd(bottomEdge(after).path))).toBeCloseTo(2 * LOWER, 9);
    expect(pathEnd(backEdge(after).path).y - pathStart(backEdge(after).path).y).toBeCloseTo(HEIGHT + amount, 9);
  });

  test('has two equal seams, hardly longer than the straight line between their ends and never shorter', () => {
    const straight = Math.hypot(HEIGHT + amount, LOWER - UPPER);
    const [one, two] = [pathLength(frontEdge(after).path), pathLength(backEdge(after).path)];
    expect(one).toBeCloseTo(two, 6);
    expect(one).toBeGreaterThan(straight);
    expect(one).toBeLessThan(straight + 0.05);
  });

  test('keeps its flare: below the lower level the seam runs at the very angle at which it ran', () => {
    const hip = findLevel(after, 'hip')!.y;
    expect(hip).toBeCloseTo(HEIGHT - 40 + amount, 9);
    const flare = (LOWER - UPPER) / HEIGHT;
    for (const below of [1, 15, 39]) {
      const [here, there] = [chordAt(after, hip)!, chordAt(after, hip + below)!];
      expect((there.toX - here.toX) / below).toBeCloseTo(flare, 3);
    }
  });
});

/** A fold of that depth between the two levels. */
const fold = (panel: Panel, depth: number): Panel =>
  changeLength(patternOf(panel), { between: [at('high-hip'), at('hip')], direction: 'shorter', amount: 2 * depth })
    .pattern.panels[0]!;

test('a fold takes up twice its depth: two folds of half the depth, one after the other, are one of the whole', () => {
  const [once, twice] = [fold(gore(), 10), fold(fold(gore(), 5), 5)];
  expect(pathEnd(backEdge(once).path).y).toBeCloseTo(HEIGHT - 20, 9);
  expect(pathEnd(backEdge(twice).path).y).toBeCloseTo(HEIGHT - 20, 9);
  for (let y = 0; y < HEIGHT - 20; y += 7) expect(chordAt(twice, y)!.width).toBeCloseTo(chordAt(once, y)!.width, 2);
});

test('a cylinder is longer by exactly the amount at every seam', () => {
  const tube = panelOf({
    name: 'tube',
    seams: ['one', 'two'],
    top: run([0, -120], [60, -120]),
    back: run([60, -120], [60, 120]),
    bottom: run([60, 120], [0, 120]),
    front: run([0, 120], [0, -120]),
    levels: { bust: -100, waist: 0, hip: 100 },
  });
  for (const between of [
    [at('bust'), at('waist')],
    [at('waist'), at('hip')],
    [at('bust'), at('hip')],
  ] as const) {
    const after = changeLength(patternOf(tube), { between, direction: 'longer', amount: 12.7 }).pattern.panels[0]!;
    for (const edge of [frontEdge(after), backEdge(after)]) expect(pathLength(edge.path)).toBeCloseTo(252.7, 9);
  }
});

const widthOf = (y: number): number => 2 * (UPPER + ((LOWER - UPPER) * y) / HEIGHT);

test('a level of a gore is raised with its chord: the cone is as wide 9 mm higher as it was at the level', () => {
  const before = gore();
  const after = raiseLine(patternOf(before), { levels: [at('high-hip')], amount: 9, hold: [] }).pattern.panels[0]!;
  expect(chordAt(after, 71)!.width).toBeCloseTo(widthOf(80), 3);
  expect(chordAt(after, 0)!.width).toBeCloseTo(widthOf(0), 9);
  for (const y of [HEIGHT - 40, HEIGHT - 20, HEIGHT]) expect(chordAt(after, y)!.width).toBeCloseTo(widthOf(y), 6);
  expect(pathLength(backEdge(after).path)).toBeGreaterThan(SLANT);
  expect(pathLength(backEdge(after).path)).toBeCloseTo(pathLength(frontEdge(after).path), 6);
});
