import { expect, test } from 'vitest';
import { gap } from '../../src/measure/gap.ts';
import { levelCalled } from '../../src/pattern/girth-at.ts';
import { straightPanel, patternOf } from '../support/shaped-panels.ts';

/** Girths: bust 382, waist 280, hip 413.33. */
const pattern = patternOf(straightPanel('front', ['cf', 'side']), straightPanel('back', ['side', 'cb']));

const want = (level: string, body: number, reduction: number, wanted: number) => ({
  level: levelCalled(level),
  body,
  reduction,
  gap: wanted,
});

test('wanted girth, predicted gap and need follow from body, reduction and paper', () => {
  const { rows } = gap(pattern, [want('waist', 360, 30, 50)]);
  expect(rows[0]).toMatchObject({ wantedGirth: 280, level: 'waist', gapWanted: 50 });
  expect(rows[0]!.patternGirth).toBeCloseTo(280, 9);
  expect(rows[0]!.predictedGap).toBeCloseTo(50, 9);
  expect(rows[0]!.needs).toBeCloseTo(0, 9);
});

test('a paper that is too small needs its shortfall added', () => {
  const { rows } = gap(pattern, [want('waist', 400, 30, 50)]);
  expect(rows[0]!.needs).toBeCloseTo(40, 9);
  expect(rows[0]!.predictedGap).toBeCloseTo(90, 9);
});

/** The report for gaps as given, on a body that fits them. */
const gaps = (top: number, waist: number, bottom: number) =>
  gap(pattern, [want('waist', 280 + waist, 0, 0), want('bust', 382 + top, 0, 0), want('hip', 1240 / 3 + bottom, 0, 0)]);

test('evenness is the widest gap less the narrowest, and the shape is told in words', () => {
  expect(gaps(50, 50, 50).shape).toBe('even');
  expect(gaps(50, 54, 50).shape).toBe('even');
  expect(gaps(80, 50, 48).shape).toBe('wider at the top');
  expect(gaps(48, 50, 80).shape).toBe('wider at the bottom');
  expect(gaps(48, 80, 50).shape).toBe('wider at the waist');
  expect(gaps(80, 50, 82).shape).toBe('narrower at the waist');
  expect(gaps(80, 50, 65).evenness).toBeCloseTo(30, 9);
});

test('a reduction over a tenth of the body is cautioned, one of exactly a tenth is not', () => {
  const over = gap(pattern, [want('waist', 700, 70.01, 50), want('hip', 900, 50, 50)]);
  expect(over.overTenth).toEqual(['waist']);
  expect(over.findings[0]).toMatchObject({ kind: 'reduction-over-tenth', weight: 'warning', where: 'waist' });
  expect(gap(pattern, [want('waist', 700, 70, 50)]).overTenth).toEqual([]);
});

test('edges that would meet too soon are found', () => {
  const report = gap(pattern, [want('waist', 300, 30, 50)]);
  expect(report.rows[0]!.predictedGap).toBeCloseTo(-10, 9);
  expect(report.findings.map(({ kind }) => kind)).toEqual(['gap-closed']);
});

test('a reduction over a tenth says both figures, and in few words what to do', () => {
  const [finding] = gap(pattern, [want('waist', 400, 45, 50)]).findings;
  expect(finding!.message).toBe('the reduction of 45.00 mm is over a tenth of the body (40.00 mm)');
  expect(finding!.cure!.split(' ').length).toBeLessThan(20);
});

test('a pattern more than a third off what is wanted is asked about: scale, sheet, panels', () => {
  const { findings } = gap(pattern, [want('bust', 1000, 0, 50), want('waist', 380, 0, 50), want('hip', 300, 0, 10)]);
  const found = findings.at(-1)!;
  expect(found).toMatchObject({ kind: 'pattern-far-off', where: 'bust, hip' });
  expect(found.message).toMatch(/^the pattern measures \d+\.\d\d mm at bust, more than a third off the 950\.00 mm/);
  expect(gap(pattern, [want('waist', 425, 0, 50)]).findings).toEqual([]);
});
