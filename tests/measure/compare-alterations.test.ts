import { describe, expect, it } from 'vitest';
import { setGusset } from '../../src/alterations/gusset.ts';
import { moveSeams } from '../../src/alterations/move-seams.ts';
import { raiseLine } from '../../src/alterations/raise-line.ts';
import { redrawEdge } from '../../src/alterations/redraw-edge.ts';
import { splice } from '../../src/alterations/splice.ts';
import { splitSides } from '../../src/alterations/split-sides.ts';
import { changeOf, isChanged } from '../../src/measure/compare/comparison.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { block } from '../support/blocks.ts';
import { boxPattern } from '../support/box-pattern.ts';
import { everyWay } from '../support/every-way.ts';
import { intoSeam, intoSlit } from '../support/gussets.ts';
import { at, letOut, takeIn } from '../support/moves.ts';
import { halfPattern, patternOf } from '../support/shaped-panels.ts';
import { edgeOf, girthChanges, outwards, own } from './comparing.ts';

describe('what an alteration did', () => {
  it('taking in above the waist shows at the levels above and nowhere else', () => {
    const before = halfPattern();
    const { pattern: after } = moveSeams(
      before,
      takeIn(['cb'], 12.7, { where: { kind: 'above', level: at('waist') } }),
    );
    const found = own(before, after);
    const cb = edgeOf(found, 'back', 'cb');
    const by = outwards(cb);
    expect(by['bust']).toBeCloseTo(-12.7, 2);
    expect(by['underbust']).toBeCloseTo(-12.7, 2);
    for (const level of ['waist', 'high-hip', 'hip']) expect(by[level]).toBeCloseTo(0, 2);
    expect(cb.most).toBeCloseTo(-12.7, 2);
    expect(edgeOf(found, 'back', 'top')).toMatchObject({ kind: 'ends' });
    expect(edgeOf(found, 'back', 'bottom').kind).toBe('same');
    expect(found.panels.slice(0, 3).flatMap(({ edges }) => edges.map(({ kind }) => kind))).toEqual(
      Array.from({ length: 12 }, () => 'same'),
    );
    expect(girthChanges(found)['bust']).toBeCloseTo(-25.4, 2);
    expect(girthChanges(found)['hip']).toBeCloseTo(0, 2);
  });

  it.each(everyWay)('moves along the levels sum to the change of width on the $name', ({ pattern }) => {
    const { pattern: after } = moveSeams(
      pattern,
      letOut(['cf', 'cb'], 5, { where: { kind: 'below', level: at('waist') } }),
    );
    const [panel] = own(pattern, after).panels;
    for (const { level, width } of panel!.levels) {
      const sum = panel!.edges
        .flatMap(({ levels }) => levels.filter((one) => one.level === level))
        .reduce((all, { outwards: by }) => all + by!, 0);
      expect(sum).toBeCloseTo(changeOf(width)!, 6);
    }
  });

  it('a raised line is a level that moved, on panels as wide as before', () => {
    const before = halfPattern();
    const { pattern: after } = raiseLine(before, { levels: [at('waist')], amount: 9.5, hold: [] });
    const found = own(before, after);
    for (const { levels, edges } of found.panels) {
      expect(changeOf(levels.find(({ level }) => level === 'waist')!.height)).toBeCloseTo(9.5, 3);
      const others = levels.filter(({ level }) => level !== 'waist');
      for (const { height } of others) expect(changeOf(height)).toBeCloseTo(0, 9);
      for (const { outwards: by } of edges.flatMap((edge) => edge.levels)) expect(Math.abs(by!)).toBeLessThan(0.01);
      expect(edges.find(({ edge }) => edge === 'top')!.kind).toBe('same');
    }
    const { above, below } = found.seams.find(({ seam }) => seam === 'cf')!.edges[0]!;
    expect(changeOf(above)! + changeOf(below)!).toBeCloseTo(0, 1);
    expect(changeOf(above)).toBeLessThan(-9);
    expect(found.differs).toBe(true);
  });

  it('a lowered top shows at both its ends, and its seams are shorter along the same line', () => {
    const before = boxPattern(3);
    const { pattern: after } = redrawEdge(before, {
      edge: 'top',
      at: [
        { seam: 'cf', amount: -10 },
        { seam: 'cb', amount: -10 },
      ],
    });
    const found = own(before, after);
    for (const { edges, notches } of found.panels) {
      const [top, back] = [edges[0]!, edges[1]!];
      expect(top).toMatchObject({ kind: 'moved' });
      expect(top.ends.map(({ up }) => Math.round(up * 100) / 100)).toEqual([-10, -10]);
      expect(top.apart).toBeCloseTo(10, 2);
      expect(back.kind).toBe('ends');
      expect(back.ends.map(({ at: end, longer }) => [end, Math.round(longer * 100) / 100 || 0])).toEqual([
        ['top', -10],
        ['bottom', 0],
      ]);
      expect(back.length.after - back.length.before).toBeCloseTo(-10, 2);
      expect(notches.some(isChanged)).toBe(false);
    }
    expect(Object.values(girthChanges(found)).every((change) => Math.abs(change) < 0.001)).toBe(true);
  });

  it('what was spliced from another version is where that one has it', () => {
    const before = halfPattern();
    const { pattern: larger } = moveSeams(before, letOut(['cb'], 6));
    const { pattern: after } = splice(before, larger, { where: { kind: 'above', level: at('waist') } }, 'larger');
    const cb = outwards(edgeOf(own(before, after), 'back', 'cb'));
    // By their waists, and both panels keep the grain of the waist: of 6 mm at every level the middle took 3.
    expect(cb['waist']).toBeCloseTo(0, 2);
    expect(cb['hip']).toBeCloseTo(0, 2);
    expect(Math.abs(cb['bust']!)).toBeGreaterThan(2.9);
  });

  it('a gusset is in one version only, with its openings, and adds to the girth', () => {
    const before = patternOf(block('front', ['cf', 'side'], 200, 150), block('back', ['side', 'cb'], 200, 150));
    const { pattern: after } = setGusset(before, intoSeam(40));
    const found = own(before, after);
    expect(found.gussets).toEqual({ onlyBefore: [], onlyAfter: ['side-gusset'] });
    expect(own(after, before).gussets).toEqual({ onlyBefore: ['side-gusset'], onlyAfter: [] });
    expect(found.panels.map(({ panel }) => panel)).toEqual(['front', 'back']);
    const openings = found.panels.flatMap(({ slits }) => slits);
    expect(
      openings.map(({ gusset, edge, length }) => [gusset, edge, length.before, Math.round(length.after!)]),
    ).toEqual([
      ['side-gusset', 'side', undefined, 110],
      ['side-gusset', 'side', undefined, 110],
    ]);
    expect(found.differs).toBe(true);
    const wider = setGusset(before, intoSeam(50)).pattern;
    expect(edgeOf(own(after, wider), 'side-gusset', 'bottom').kind).not.toBe('same');
    const slit = setGusset(before, intoSlit('back', 0.5, 30)).pattern;
    const lower = setGusset(before, intoSlit('back', 0.5, 30, -50)).pattern;
    const [opening] = own(slit, lower).panels.flatMap(({ slits }) => slits);
    expect(changeOf(opening!.height)).toBeCloseTo(-10, 6);
    expect(opening!.apart).toBeCloseTo(10, 6);
  });

  it('one side of a split pattern moves alone, outwards on both sides', () => {
    const before = splitSides(halfPattern()).pattern;
    const after: Pattern = {
      ...before,
      panels: before.panels.map((panel) =>
        panel.name === 'back-right'
          ? moveSeams({ ...before, panels: [panel] }, letOut(['cb'], 4)).pattern.panels[0]!
          : panel,
      ),
    };
    const found = own(before, after);
    expect(outwards(edgeOf(found, 'back-right', 'cb'))['waist']).toBeCloseTo(4, 2);
    expect(edgeOf(found, 'back-left', 'cb').kind).toBe('same');
    expect(girthChanges(found)['waist']).toBeCloseTo(4, 2);
    const right = { ...after, panels: after.panels.filter(({ side }) => side === 'right') };
    expect(own({ ...before, panels: before.panels.filter(({ side }) => side === 'right') }, right).half).toBe('right');
  });
});
