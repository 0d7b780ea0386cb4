import { describe, expect, it } from 'vitest';
import { moveSeams } from '../../src/alterations/move-seams.ts';
import { raiseLine } from '../../src/alterations/raise-line.ts';
import { redrawEdge } from '../../src/alterations/redraw-edge.ts';
import type { Comparison } from '../../src/measure/compare/comparison.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { at, takeIn } from '../support/moves.ts';
import { curvedPanel, mirrored, patternOf } from '../support/shaped-panels.ts';
import { byWaist, girthChanges, own } from './comparing.ts';

/** Every number that has a direction, the other way round. */
const turned = (found: Comparison) => ({
  ...found,
  panels: found.panels.map((panel) => ({
    panel: panel.panel,
    edges: panel.edges.map(({ edge, kind, apart, from, to, most, levels, ends, length }) => ({
      edge,
      kind,
      apart,
      from: to,
      to: from,
      most: 0 - most,
      levels: levels.map(({ level, outwards: by }) => ({ level, outwards: by === undefined ? by : 0 - by })),
      ends: ends.map(({ at: end, up, outwards: out, longer }) => ({
        at: end,
        up: 0 - up,
        outwards: 0 - out,
        longer: 0 - longer,
      })),
      length: { before: length.after, after: length.before },
    })),
  })),
});

/** Rounded as reports are, so that the last bits of two ways to one number do not count; no minus zero. */
const rounded = (value: unknown): unknown =>
  JSON.parse(
    JSON.stringify(value, (_, part: unknown) => (typeof part === 'number' ? Math.round(part * 1e5) / 1e5 || 0 : part)),
  );

const negated = (changes: Record<string, number>): Record<string, number> =>
  Object.fromEntries(Object.entries(changes).map(([level, by]) => [level, -by]));

/** What `turned` turns, as it was found: places along with the heights of their own waists are left out. */
const withoutHeights = (found: Comparison) =>
  found.panels.map(({ panel, edges }) => ({
    panel,
    edges: edges.map(({ edge, kind, apart, from, to, most, levels, ends, length }) => ({
      edge,
      kind,
      apart,
      from,
      to,
      most,
      levels,
      ends,
      length,
    })),
  }));

describe('the other way round', () => {
  const base = patternOf(curvedPanel('front', ['cf', 'side']), curvedPanel('back', ['side', 'cb']));
  const versions: readonly Pattern[] = [
    moveSeams(base, takeIn(['side'], 5, { where: { kind: 'above', level: at('waist') } })).pattern,
    raiseLine(base, { levels: [at('waist')], amount: 8, hold: [] }).pattern,
    redrawEdge(base, { edge: 'top', at: [{ seam: 'side', amount: 12 }] }).pattern,
    patternOf(...base.panels.map((panel) => mirrored(panel))),
  ];

  it.each(versions.map((after, i) => [i, after] as const))('everything has the other sign, version %d', (_, after) => {
    const [there, back] = [own(base, after), own(after, base)];
    expect(back.differs).toBe(there.differs);
    expect(rounded(turned(there).panels)).toEqual(rounded(withoutHeights(back)));
    for (const compare of [own, byWaist]) {
      expect(rounded(girthChanges(compare(after, base)))).toEqual(rounded(negated(girthChanges(compare(base, after)))));
    }
  });
});
