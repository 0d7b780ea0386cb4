/**
 * Real bodies through the gap report. Rows of women from the US Army anthropometric survey 1988 (Gordon et al. 1989,
 * NATICK/TR-89/044), girths in mm, subject numbers as in the survey's open rows: near the 5th, 50th and 95th percentile in all
 * measures, and two whose waist is larger than, or far smaller than, what lies above it.
 */

import { expect, test } from 'vitest';
import { gap } from '../../src/measure/gap.ts';
import { girth } from '../../src/measure/girth.ts';
import { moveSeams } from '../../src/alterations/move-seams.ts';
import { at, letOut } from '../support/moves.ts';
import { halfPattern } from '../support/shaped-panels.ts';

const BODIES = [
  { subject: 25197, bust: 830, underbust: 694, waist: 650, hip: 872 },
  { subject: 13633, bust: 899, underbust: 768, waist: 700, hip: 969 },
  { subject: 15587, bust: 1003, underbust: 864, waist: 833, hip: 1084 },
  { subject: 26233, bust: 933, underbust: 738, waist: 778, hip: 984 },
  { subject: 22376, bust: 887, underbust: 734, waist: 647, hip: 988 },
] as const;

const LEVELS = ['bust', 'underbust', 'waist', 'hip'] as const;

test.each(BODIES)(
  'for subject $subject what each level needs, let out at each level, leaves the gap that was wanted',
  (body) => {
    const pattern = halfPattern();
    const wanted = LEVELS.map((name) => ({
      level: at(name),
      body: body[name],
      reduction: name === 'waist' ? 40 : 20,
      gap: 50,
    }));
    const before = gap(pattern, wanted);
    /** Eight stitching lines on each half: one each at cf and cb, two at the three seams between. */
    const lines = 16;
    const seams = ['cf', 'front-side', 'side', 'side-back', 'cb'];
    const amounts = before.rows.map((row) => ({ level: at(row.level), amount: row.needs / lines }));
    const fitted = moveSeams(pattern, letOut(seams, { kind: 'at', at: amounts })).pattern;
    const after = gap(fitted, wanted);
    for (const row of after.rows) {
      expect(Math.abs(row.predictedGap - 50)).toBeLessThan(0.01 * lines);
      expect(Math.abs(row.needs)).toBeLessThan(0.01 * lines);
    }
    expect(after.shape).toBe('even');
    expect(girth(fitted, [at('waist')]).levels[0]!.girth).toBeCloseTo(body.waist - 90, 1);
  },
);

const over = (reduction: number) =>
  BODIES.filter(
    ({ waist }) => gap(halfPattern(), [{ level: at('waist'), body: waist, reduction, gap: 50 }]).overTenth.length > 0,
  );

test('no body of these has a reduction of 40 mm over a tenth of its waist; 80 mm is, for every one under 80 cm', () => {
  expect(over(40)).toEqual([]);
  expect(over(80).map(({ subject }) => subject)).toEqual([25197, 13633, 26233, 22376]);
});
