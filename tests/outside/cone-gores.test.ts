/**
 * A frustum of a cone developed into gores: what a cone measures round at any height is known, so the paper must say the same.
 * Source of the method and of the first frustum's data: Longfield, "Sheet Metal Drafting", 1921, pp. 82, 91 and 128 (diameters 6 and
 * 3, altitude 3; the radii and the slant follow from Pythagoras). The second frustum, waist 700 and hip 980 over 200, is computed here.
 *
 * A gore's seams are the straight lines on which the cone's surface is cut; unrolled they meet in the apex. Its chord along a level
 * is the chord of the arc, and the arc follows from the chord: so girth is proved against 2 pi r both ways.
 */

import { expect, test } from 'vitest';
import { moveSeams } from '../../src/alterations/move-seams.ts';
import { girth } from '../../src/measure/girth.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { at, letOut } from '../support/moves.ts';
import { panelOf, patternOf, run } from '../support/shaped-panels.ts';

interface Frustum {
  readonly upperRound: number;
  readonly lowerRound: number;
  readonly height: number;
}

/** What the handbook's rules give: the slant, the two radii of the development and the angle of its sector. */
const develop = ({ upperRound, lowerRound, height }: Frustum) => {
  const [upper, lower] = [upperRound, lowerRound].map((round) => round / (2 * Math.PI));
  const slant = Math.hypot(height, lower! - upper!);
  const outer = (slant * lower!) / (lower! - upper!);
  return { slant, outer, inner: outer - slant, sector: lowerRound / outer };
};

/** One of `count` gores, its middle line upright: y is the distance from the apex along it. */
const gore = (frustum: Frustum, count: number, name: string, seams: readonly [string, string]): Panel => {
  const { outer, inner, sector } = develop(frustum);
  const half = sector / count / 2;
  const corner = (radius: number, side: 1 | -1) => [side * radius * Math.sin(half), radius * Math.cos(half)] as const;
  const middle = (inner + outer) / 2;
  return panelOf({
    name,
    seams,
    top: run(corner(inner, -1), corner(inner, 1)),
    back: run(corner(inner, 1), corner(outer, 1)),
    bottom: run(corner(outer, 1), corner(outer, -1)),
    front: run(corner(outer, -1), corner(inner, -1)),
    levels: { waist: corner(middle, 1)[1] },
  });
};

/** Twelve gores in pairs: six are drawn. */
const goredPattern = (frustum: Frustum): Pattern => {
  const seams = ['cf', 'one', 'two', 'three', 'four', 'five', 'cb'];
  return patternOf(...seams.slice(1).map((seam, i) => gore(frustum, 12, `gore-${i + 1}`, [seams[i]!, seam])));
};

/** The girth of the cone on which the points at that height of the seam lie, from chords of arcs. */
const roundAt = (frustum: Frustum, radius: number): number => {
  const half = develop(frustum).sector / 24;
  return (radius * develop(frustum).sector * Math.sin(half)) / half;
};

const HANDBOOK: Frustum = { upperRound: 3 * Math.PI, lowerRound: 6 * Math.PI, height: 3 };
const BODY: Frustum = { upperRound: 700, lowerRound: 980, height: 200 };

test('the development has the radii and the sector that the handbook rules give', () => {
  const small = develop(HANDBOOK);
  expect(small.slant).toBeCloseTo(3.354102, 6);
  expect([small.outer, small.inner]).toEqual([expect.closeTo(6.708204, 6), expect.closeTo(3.354102, 6)]);
  expect((small.sector * 180) / Math.PI).toBeCloseTo(160.997, 3);
  const body = develop(BODY);
  expect(body.slant).toBeCloseTo(204.9046, 4);
  expect([body.outer, body.inner]).toEqual([expect.closeTo(717.166101, 6), expect.closeTo(512.261501, 6)]);
  expect((body.sector * 180) / Math.PI).toBeCloseTo(78.294085, 6);
});

test.each([
  ['waist 700, hip 980', BODY],
  ['ten times the handbook frustum', { upperRound: 30 * Math.PI, lowerRound: 60 * Math.PI, height: 30 }],
])('gores of %s measure what the cone does, at its ends and between', (_, frustum) => {
  const pattern = goredPattern(frustum);
  const { inner, outer, sector } = develop(frustum);
  const half = sector / 24;
  const waist = (inner + outer) / 2;
  for (const part of [0, 0.2, 0.5, 0.77, 1]) {
    const radius = inner + (outer - inner) * part;
    const level = at('waist', (waist - radius) * Math.cos(half));
    expect(girth(pattern, [level]).levels[0]!.girth).toBeCloseTo(roundAt(frustum, radius), 6);
  }
  const ends = girth(pattern, [at('top'), at('bottom')]).levels.map(
    ({ girth: chords }) => (chords * half) / Math.sin(half),
  );
  expect(ends[0]).toBeCloseTo(frustum.upperRound, 6);
  expect(ends[1]).toBeCloseTo(frustum.lowerRound, 6);
});

test('letting out every seam of the gores alike adds the same girth at every height, as a cylinder put between would', () => {
  const pattern = goredPattern(BODY);
  const all = ['cf', 'one', 'two', 'three', 'four', 'five', 'cb'];
  const wider = moveSeams(pattern, letOut(all, 2)).pattern;
  for (const offset of [-80, 0, 80]) {
    const [before, after] = [pattern, wider].map((each) => girth(each, [at('waist', offset)]).levels[0]!.girth);
    expect(after! - before!).toBeCloseTo(2 * 24, 6);
  }
});
