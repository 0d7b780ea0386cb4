import { describe, expect, test } from 'vitest';
import { changeLength, type ChangeLength } from '../../src/alterations/change-length.ts';
import { raiseLine } from '../../src/alterations/raise-line.ts';
import { distance } from '../../src/geometry/point.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { everyWay } from '../support/every-way.ts';
import { farthestOff } from '../support/farthest-off.ts';
import { expectSound } from '../support/invariants.ts';
import { at } from '../support/moves.ts';

/** A tenth of what is promised for a chain. */
const BOUND = 0.01;
const NAMES = ['bust', 'underbust', 'waist', 'high-hip', 'hip'] as const;

/** An upright alteration of either kind, undone by the opposite amount. */
interface Upright {
  readonly kind: 'raise' | 'length';
  readonly levels: readonly [string, string];
  readonly amount: number;
  readonly direction: ChangeLength['direction'];
}

const done = (pattern: Pattern, { kind, levels: [one, other], amount, direction }: Upright) =>
  kind === 'raise'
    ? raiseLine(pattern, { levels: [at(one)], amount, hold: [] })
    : changeLength(pattern, { between: [at(one), at(other)], amount, direction });

const opposite = (what: Upright): Upright => ({ ...what, amount: -what.amount });

const ALTERATIONS: readonly Upright[] = Array.from({ length: 25 }, (_, i) => ({
  kind: i % 2 === 0 ? 'raise' : 'length',
  levels: [NAMES[(i * 3) % 5]!, NAMES[(i * 3 + 1 + (i % 4)) % 5]!],
  amount: (1 + ((i * 7) % 11)) * (i % 3 === 0 ? -0.9 : 0.7),
  direction: i % 4 === 1 ? 'longer' : 'shorter',
}));

const nodesOf = (pattern: Pattern): number =>
  pattern.panels[0]!.edges.reduce((sum, edge) => sum + edge.path.segments.length, 0);

/** A seam that passes the same heights three times settles after some rounds at two nodes more for each pass. */
const MORE_NODES = 4;

const SOUND_EVERY = 9;

const afterAll = (pattern: Pattern, chain: readonly Upright[]): { readonly end: Pattern; readonly most: number } => {
  let [end, most] = [pattern, nodesOf(pattern)];
  for (const [i, what] of chain.entries()) {
    const next = done(end, what).pattern;
    if (i % SOUND_EVERY === 0) expectSound(end, next);
    end = next;
    most = Math.max(most, nodesOf(end));
  }
  return { end, most };
};

describe.each(everyWay)('on a panel that is $name', ({ pattern }) => {
  test('25 alterations in a row and then their opposites, last first, end where they began, with few nodes', () => {
    const { end, most } = afterAll(pattern, [...ALTERATIONS, ...ALTERATIONS.toReversed().map(opposite)]);
    expect(farthestOff(pattern, end)).toBeLessThan(BOUND);
    expect(most).toBeLessThan(40);
    for (const [i, notch] of end.panels[0]!.notches.entries()) {
      expect(distance(notch.at, pattern.panels[0]!.notches[i]!.at)).toBeLessThan(BOUND);
      expect(distance(notch.inner, pattern.panels[0]!.notches[i]!.inner)).toBeLessThan(BOUND);
    }
  });

  test('the same alteration made and undone 25 times gathers no nodes', () => {
    const what: Upright = { kind: 'raise', levels: ['waist', 'hip'], amount: 9, direction: 'longer' };
    const often = afterAll(pattern, Array.from({ length: 25 }, () => [what, opposite(what)]).flat());
    const once = afterAll(pattern, [what, opposite(what)]);
    expect(nodesOf(often.end)).toBeLessThanOrEqual(nodesOf(once.end) + MORE_NODES);
    expect(farthestOff(pattern, often.end)).toBeLessThan(BOUND);
  });
});
