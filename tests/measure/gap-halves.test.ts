import { describe, expect, it } from 'vitest';
import { moveSeams } from '../../src/alterations/move-seams.ts';
import { splitSides } from '../../src/alterations/split-sides.ts';
import { gap } from '../../src/measure/gap.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { at, letOut } from '../support/moves.ts';
import { patternOf, straightPanel } from '../support/shaped-panels.ts';

/** Waist chord of the straight panel: from x = 10 to x = 80. */
const WAIST = 70;

const half = (pattern: Pattern, side: 'left' | 'right'): Pattern => ({
  ...pattern,
  panels: pattern.panels.filter((panel) => panel.side === side),
});

const wanted = { level: at('waist'), body: 310, halves: { left: 150, right: 160 }, reduction: 20, gap: 50 };

describe('the gap on a body whose halves differ', () => {
  it('tells each side by itself, half of reduction and opening on each', () => {
    const { rows } = gap(splitSides(patternOf(straightPanel())).pattern, [wanted]);
    expect(rows[0]!.halves).toEqual([
      { side: 'left', body: 150, pattern: WAIST, fromCentre: 150 - 10 - WAIST, needs: 150 - 10 - 25 - WAIST },
      { side: 'right', body: 160, pattern: WAIST, fromCentre: 160 - 10 - WAIST, needs: 160 - 10 - 25 - WAIST },
    ]);
  });

  it('adds up to what the whole needs and to the whole opening', () => {
    const { rows } = gap(splitSides(patternOf(straightPanel())).pattern, [wanted]);
    const [row] = rows;
    const sum = (pick: (one: { fromCentre: number; needs: number }) => number): number =>
      row!.halves.reduce((all, one) => all + pick(one), 0);
    expect(sum(({ needs }) => needs)).toBeCloseTo(row!.needs, 9);
    expect(sum(({ fromCentre }) => fromCentre)).toBeCloseTo(row!.predictedGap, 9);
  });

  it('takes half of a half pattern on either side', () => {
    const { rows } = gap(patternOf(straightPanel()), [wanted]);
    expect(rows[0]!.halves.map(({ pattern }) => pattern)).toEqual([WAIST, WAIST]);
  });

  it('is closed on one side by letting that side out alone', () => {
    const split = splitSides(patternOf(straightPanel())).pattern;
    const right = moveSeams(half(split, 'right'), letOut(['cb'], 10)).pattern;
    const uneven = { ...split, panels: [...half(split, 'left').panels, ...right.panels] };
    const [left, other] = gap(uneven, [wanted]).rows[0]!.halves;
    expect(left!.needs).toBeCloseTo(45, 9);
    expect(other!.needs).toBeCloseTo(45, 6);
  });

  it('warns where one edge would pass the centre back, though there is an opening', () => {
    const uneven = { ...wanted, halves: { left: 75, right: 235 } };
    const { rows, findings } = gap(splitSides(patternOf(straightPanel())).pattern, [uneven]);
    expect(rows[0]!.predictedGap).toBeGreaterThan(0);
    expect(findings.filter(({ kind }) => kind === 'half-past-centre')).toMatchObject([
      { weight: 'warning', where: 'waist, left', message: 'the left edge would pass the centre back by 5.00 mm' },
    ]);
    const inside = gap(splitSides(patternOf(straightPanel())).pattern, [wanted]).findings;
    expect(inside.filter(({ kind }) => kind === 'half-past-centre')).toEqual([]);
  });

  it('warns of edges that meet all round once, not for each half too', () => {
    const tight = { ...wanted, body: 140, halves: { left: 70, right: 70 } };
    const { findings } = gap(splitSides(patternOf(straightPanel())).pattern, [tight]);
    expect(
      findings.map(({ kind }) => kind).filter((kind) => kind.includes('closed') || kind.includes('centre')),
    ).toEqual(['gap-closed']);
  });

  it('says nothing of halves that were not measured, nor of one side looked at alone', () => {
    const { halves: _, ...whole } = wanted;
    expect(gap(patternOf(straightPanel()), [whole]).rows[0]!.halves).toEqual([]);
    expect(gap(half(splitSides(patternOf(straightPanel())).pattern, 'left'), [wanted]).rows[0]!.halves).toEqual([]);
  });
});
