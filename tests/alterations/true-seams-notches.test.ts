import { expect, test } from 'vitest';
import { trueSeams } from '../../src/alterations/true-seams.ts';
import { nearestPoint } from '../../src/geometry/nearest-point.ts';
import { sidesOf } from '../../src/pattern/look-up.ts';
import { altered } from '../support/any-alteration.ts';
import { expectSound } from '../support/invariants.ts';
import { pairOfShapes } from '../support/mixed-patterns.ts';
import { at } from '../support/moves.ts';
import { allShapes } from '../support/shaped-panels.ts';

test('a notch on a bottom whose corner slides and which is turned as well stays on it', () => {
  const [tilted, cornered] = [allShapes[2]!(), allShapes[4]!()];
  const raised = altered(pairOfShapes(cornered, tilted), {
    kind: 'raise',
    what: { levels: [at('hip')], amount: 17.96, hold: [] },
  }).pattern;
  const { pattern } = trueSeams(raised, { seams: [], keep: [] });
  for (const panel of pattern.panels) {
    const notch = panel.notches.find(({ edge }) => edge === 'bottom')!;
    expect(nearestPoint(sidesOf(panel)!.bottom.path, notch.at).distance).toBeLessThan(0.001);
  }
  expectSound(raised, pattern);
});
