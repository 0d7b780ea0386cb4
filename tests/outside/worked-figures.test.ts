/** Figures worked out in old sewing books, and the arithmetic that follows from them. */

import { expect, test } from 'vitest';
import { moveSeams } from '../../src/alterations/move-seams.ts';
import { pathLength } from '../../src/geometry/arc-length.ts';
import { gap } from '../../src/measure/gap.ts';
import { edgeNamed } from '../../src/pattern/look-up.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { at, letOut, takeIn } from '../support/moves.ts';
import { panelOf, patternOf, run, straightPanel } from '../support/shaped-panels.ts';

const INCH = 25.4;

/** Straight panels in a row, all seams between them inner ones; drawn singly, all round the body. */
const rowOf = (count: number): Pattern => ({
  ...patternOf(
    ...Array.from({ length: count }, (_, i) => straightPanel(`panel-${i + 1}`, [`seam-${i}`, `seam-${i + 1}`])),
  ),
  pieces: 'single',
  units: 'in',
});

const waistChange = (moved: ReturnType<typeof moveSeams>): number => {
  const waist = moved.change.girth.find(({ level }) => level === 'waist')!;
  return waist.after - waist.before;
};

test('an eighth of an inch too much on each side of 7 seams is 1 3/4 in off the waist (Hapgood, School Needlework, 1892)', () => {
  const seven = Array.from({ length: 7 }, (_, i) => `seam-${i + 1}`);
  const moved = moveSeams(rowOf(8), takeIn(seven, INCH / 8));
  expect(waistChange(moved) / INCH).toBeCloseTo(-1.75, 9);
  expect(moved.change.seams.reduce((sum, { linesRoundBody }) => sum + linesRoundBody, 0)).toBe(14);
});

/** What each line moves, in inches, when 2 in round the body are shared by so many inner seams. */
const sharedOver = (seams: number): number => {
  const names = Array.from({ length: seams }, (_, i) => `seam-${i + 1}`);
  const moved = moveSeams(rowOf(seams + 1), letOut(names, { kind: 'girth', girth: 2 * INCH }));
  expect(waistChange(moved) / INCH).toBeCloseTo(2, 9);
  return moved.change.seams[0]!.levels[0]!.amount / INCH;
};

test('2 in over 2 seams is half an inch an edge, over 8 seams an eighth (common practice; the division is arithmetic)', () => {
  expect(sharedOver(2)).toBeCloseTo(1 / 2, 12);
  expect(sharedOver(8)).toBeCloseTo(1 / 8, 12);
});

/** A square panel with a level every `span` mm, so that a let-out of its back edge tapers over exactly that length. */
const squarePanel = (span: number) =>
  panelOf({
    name: 'square',
    seams: ['cf', 'cb'],
    top: run([0, -300], [200, -300]),
    back: run([200, -300], [200, 300]),
    bottom: run([200, 300], [0, 300]),
    front: run([0, 300], [0, -300]),
    levels: { bust: -span, waist: 0 },
  });

test.each([
  [200, 0.09],
  [100, 0.1798],
  [50, 0.3587],
])(
  'fading 6 mm out over %i mm lengthens a straight edge by at least the straight line does (%f mm, Pythagoras)',
  (span, straight) => {
    expect(Math.hypot(span, 6) - span).toBeCloseTo(straight, 4);
    const pattern = patternOf(squarePanel(span));
    const moved = moveSeams(pattern, letOut(['cb'], 6, { where: { kind: 'above', level: at('waist') } })).pattern;
    const longer =
      pathLength(edgeNamed(moved.panels[0]!, 'cb').path) - pathLength(edgeNamed(pattern.panels[0]!, 'cb').path);
    expect(longer).toBeGreaterThan(straight);
    /** The smooth fade 6 (3t^2 - 2t^3) has the mean square slope 6/5 of the straight one's. */
    expect(longer).toBeCloseTo(straight * 1.2, 2);
  },
);

/**
 * What to leave for lacing at the back: 3 in at the bust, 2 in at the waist, 3 in at the hip (Spirella Co., "How to Take Measurements",
 * 1912, and its "Instructions in Spirella Corsetry", chapter 13). The gap is worn in that proportion, so it is not parallel.
 */
test('the lacing deductions of 1912 give a gap that is narrower at the waist, and a paper cut so needs nothing', () => {
  const pattern = patternOf(straightPanel());
  const [bust, waist, hip] = [191, 140, 206 + 2 / 3] as const;
  const wanted = [
    { level: at('bust'), body: bust + 3 * INCH, reduction: 0, gap: 3 * INCH },
    { level: at('waist'), body: waist + 2 * INCH, reduction: 0, gap: 2 * INCH },
    { level: at('hip'), body: hip + 3 * INCH, reduction: 0, gap: 3 * INCH },
  ];
  const report = gap(pattern, wanted);
  for (const row of report.rows) expect(row.needs).toBeCloseTo(0, 9);
  expect(report.evenness).toBeCloseTo(INCH, 9);
  expect(report.shape).toBe('narrower at the waist');
});

const laced = (reduction: number) =>
  gap(patternOf(straightPanel()), [{ level: at('waist'), body: 700, reduction, gap: 50 }]).overTenth;

/** Gau, thesis, Iowa State University, 1998 (abstract): at most a tenth of the waist, 7 cm of 70. */
test('a waist of 70 cm laced in by 7 cm is not cautioned, by more it is', () => {
  expect(laced(70)).toEqual([]);
  expect(laced(71)).toEqual(['waist']);
});
