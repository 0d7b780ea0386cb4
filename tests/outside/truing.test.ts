/** Truing and walking against published practice and plane geometry. */

import { expect, test } from 'vitest';
import { moveSeams } from '../../src/alterations/move-seams.ts';
import { trueSeams } from '../../src/alterations/true-seams.ts';
import { TRUE_WITHIN, walk } from '../../src/measure/walk.ts';
import { edgeNamed } from '../../src/pattern/look-up.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { differenceAlong } from '../../src/pattern/seam-walk.ts';
import { block, notched } from '../support/blocks.ts';
import { expectSound } from '../support/invariants.ts';
import { at, letOut } from '../support/moves.ts';
import { patternOf, run } from '../support/shaped-panels.ts';

const INCH = 25.4;

/** A pair of edges of which one is so much longer above the waist. */
const off = (by: number): Pattern =>
  patternOf(block('front', ['cf', 'side'], 200 + by, 150), block('back', ['side', 'cb'], 200, 150));

test('seams are walked to 1/16 in (Threads 200, December 2018, read; many accept 1/8 in, common practice)', () => {
  expect(TRUE_WITHIN).toBeGreaterThan(INCH / 16);
  expect(TRUE_WITHIN - INCH / 16).toBeLessThan(0.05);
  expect(walk(off(INCH / 16), []).lengths).toEqual([]);
  expect(walk(off(INCH / 8), []).lengths).toHaveLength(1);
  expect(walk(off(INCH / 8), [], 3.2).lengths).toEqual([]);
});

test('waistlines are matched first, then up and down from the waist (Baldt, Clothing for Women, 1916, read)', () => {
  // Equal in the whole, but the waist lies 5 mm higher on the back: sewn from the top down the waists would miss each other.
  const front = notched(block('front', ['cf', 'side'], 200, 150), 'side', 2 * INCH);
  const back = notched(block('back', ['side', 'cb'], 195, 155), 'side', 2 * INCH);
  const { walks, lengths, notches } = walk(patternOf(front, back), []);
  expect(differenceAlong(walks[0]!, 'whole')).toBeCloseTo(0, 9);
  expect(differenceAlong(walks[0]!, 'above')).toBeCloseTo(5, 9);
  expect(differenceAlong(walks[0]!, 'below')).toBeCloseTo(-5, 9);
  expect(lengths).toHaveLength(2);
  expect(notches).toEqual([]);
});

/** The back panel let out in a straight line: nothing at the waist, `e` at a bottom `length` below it. */
const letOutStraight = (panel: Panel, e: number, length: number): Panel => ({
  ...panel,
  edges: panel.edges.map((edge) => {
    if (edge.name === 'bottom') return { ...edge, path: { segments: run([80, length], [-e, length]) } };
    return edge.name === 'side' ? { ...edge, path: { segments: run([-e, length], [0, 0], [0, -200]) } } : edge;
  }),
});

test.each([
  [6, 200, 0.09],
  [6, 100, 0.1798],
  [6, 50, 0.3587],
])(
  'a let-out of %d mm fading straight to nothing over %d mm makes its edge %d mm longer: sqrt(S^2 + e^2) - S (geometry, computed)',
  (e, length, printed) => {
    const longer = Math.sqrt(length ** 2 + e ** 2) - length;
    expect(longer).toBeCloseTo(printed, 4);
    const before = patternOf(
      block('front', ['cf', 'side'], 200, length),
      letOutStraight(block('back', ['side', 'cb'], 200, length), e, length),
    );
    const [walked] = walk(before, []).walks;
    expect(differenceAlong(walked!, 'above')).toBeCloseTo(0, 9);
    expect(-differenceAlong(walked!, 'below')).toBeCloseTo(longer, 6);
    const { pattern, change } = trueSeams(before, { seams: [], keep: [] });
    expectSound(before, pattern);
    expect(change.seams[0]!.edges[0].growth.bottom).toBeCloseTo(longer / 2, 6);
    expect(change.seams[0]!.edges[1].growth.bottom).toBeCloseTo(-longer / 2, 6);
    const [after] = walk(pattern, []).walks;
    for (const edge of after!.edges) expect(edge.below).toBeCloseTo(length + longer / 2, 3);
  },
);

test('the same let-out on both edges of a straight seam keeps them equal, and leaves nothing to true (geometry)', () => {
  const before = patternOf(block('front', ['cf', 'side'], 200, 150), block('back', ['side', 'cb'], 200, 150));
  const { pattern } = moveSeams(before, letOut(['side'], 6, { where: { kind: 'below', level: at('waist') } }));
  const [walked] = walk(pattern, []).walks;
  expect(differenceAlong(walked!, 'below')).toBeCloseTo(0, 3);
  const trued = trueSeams(pattern, { seams: [], keep: [] }).pattern;
  for (const [index, panel] of trued.panels.entries()) {
    expect(edgeNamed(panel, 'side')).toBe(edgeNamed(pattern.panels[index]!, 'side'));
  }
});
