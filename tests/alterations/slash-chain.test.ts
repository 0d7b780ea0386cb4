import { expect, test } from 'vitest';
import { slash } from '../../src/alterations/slash.ts';
import { outlineOf } from '../../src/pattern/outline.ts';
import { expectSound } from '../support/invariants.ts';
import { at } from '../support/moves.ts';
import { curvedPanel, farthestApart, patternOf, withNotches } from '../support/shaped-panels.ts';
import { parallel, slashing } from '../support/slashes.ts';

/** The nodes of all edges. */
const nodesOf = (pattern: ReturnType<typeof patternOf>): number =>
  pattern.panels[0]!.edges.reduce((sum, { path }) => sum + path.segments.length, 0);

test.each([
  ['to a level', slashing({ panel: 'curved', lines: 2, spread: 3 }), 0.03],
  ['right through', slashing({ panel: 'curved', from: 'top', hinge: at('bottom'), spread: 3 }), 0.02],
  ['parallel', parallel({ panel: 'curved', from: 'top', lines: 3, spread: 3 }), 0.02],
  ['across', slashing({ panel: 'curved', from: 'cb', hinge: at('cf'), at: [at('high-hip')], spread: 3 }), 0.3],
])('ten slashings and their opposites, %s, gather two nodes at most and stay near the drawing', (_, what, within) => {
  const drawn = patternOf(withNotches(curvedPanel()));
  let pattern = drawn;
  const nodes: number[] = [];
  for (let i = 0; i < 10; i += 1) {
    for (const spread of [what.spread, -what.spread]) {
      const before = pattern;
      pattern = slash(before, { ...what, spread }).pattern;
      expectSound(before, pattern);
    }
    nodes.push(nodesOf(pattern));
  }
  expect(nodes.at(-1)).toBeLessThanOrEqual(nodes[1]! + 2);
  expect(farthestApart(outlineOf(drawn.panels[0]!), outlineOf(pattern.panels[0]!))).toBeLessThan(within);
});
