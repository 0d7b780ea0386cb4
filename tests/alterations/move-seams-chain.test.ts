import { describe, expect, test } from 'vitest';
import { moveSeams } from '../../src/alterations/move-seams.ts';
import type { MoveSeams } from '../../src/alterations/move-seams-options.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { at, letOut, opposite, takeIn } from '../support/moves.ts';
import { farthestOff } from '../support/farthest-off.ts';
import { expectSound } from '../support/invariants.ts';
import { allShapes, mirrored, patternOf, withNotches } from '../support/shaped-panels.ts';

const BOUND = 0.1;

/** Soundness is checked at each alteration elsewhere; in a chain now and then, which keeps the suite quick. */
const SOUND_EVERY = 7;

const nodesOf = (pattern: Pattern): number =>
  pattern.panels[0]!.edges.reduce((sum, edge) => sum + edge.path.segments.length, 0);

/** 25 alterations of every kind, small and large, that overlap each other. */
const ALTERATIONS: readonly MoveSeams[] = Array.from({ length: 25 }, (_, i) => {
  const amount = 0.4 + ((i * 7) % 11) * 0.3;
  const seams = [['cb'], ['cf'], ['cb', 'cf']][i % 3]!;
  const towards = (i * 3) % 4 < 2 ? takeIn : letOut;
  const raised = (i % 5) * 2;
  switch (i % 6) {
    case 0:
      return towards(seams, amount);
    case 1:
      return towards(seams, amount, { where: { kind: 'above', level: at('waist', raised) } });
    case 2:
      return towards(seams, amount, { where: { kind: 'below', level: at('high-hip', raised) } });
    case 3:
      return towards(seams, amount, { where: { kind: 'between', levels: [at('bust', -raised), at('hip')] } });
    case 4:
      return towards(seams, amount, { where: { kind: 'above', level: at('hip'), fullAt: at('bust') } });
    default:
      return towards(seams, {
        kind: 'at',
        at: [
          { level: at('bust'), amount },
          { level: at('waist'), amount: -amount / 2 },
          { level: at('hip'), amount: amount / 3 },
        ],
      });
  }
});

const afterAll = (pattern: Pattern, moves: readonly MoveSeams[]): { readonly end: Pattern; readonly most: number } => {
  let [end, most] = [pattern, nodesOf(pattern)];
  for (const [i, what] of moves.entries()) {
    const next = moveSeams(end, what).pattern;
    if (i % SOUND_EVERY === 0) expectSound(end, next);
    end = next;
    most = Math.max(most, nodesOf(end));
  }
  return { end, most };
};

const shapes = allShapes.flatMap((shape) => [shape(), mirrored(shape())]);

describe.each(shapes.map((panel, i) => ({ name: `${panel.name} ${i % 2}`, panel })))('on $name', ({ panel }) => {
  const pattern = patternOf(withNotches(panel));

  test('25 alterations, each undone at once, end where they began', () => {
    const { end, most } = afterAll(
      pattern,
      ALTERATIONS.flatMap((what) => [what, opposite(what)]),
    );
    expect(farthestOff(pattern, end)).toBeLessThan(BOUND);
    expect(most).toBeLessThan(nodesOf(pattern) + 20);
    for (const [i, notch] of end.panels[0]!.notches.entries()) {
      const was = pattern.panels[0]!.notches[i]!;
      expect(Math.hypot(notch.at.x - was.at.x, notch.at.y - was.at.y)).toBeLessThan(BOUND);
      expect(Math.hypot(notch.inner.x - was.inner.x, notch.inner.y - was.inner.y)).toBeLessThan(BOUND);
    }
  });

  test('25 alterations in a row and then their opposites, last first, end where they began', () => {
    const { end, most } = afterAll(pattern, [...ALTERATIONS, ...ALTERATIONS.toReversed().map(opposite)]);
    expect(farthestOff(pattern, end)).toBeLessThan(BOUND);
    expect(most).toBeLessThan(60);
    expect(nodesOf(end)).toBeLessThan(nodesOf(pattern) + 25);
  });

  test('the same alteration made and undone 25 times gathers no nodes', () => {
    const what = takeIn(['cb'], 6, { where: { kind: 'above', level: at('waist') } });
    const once = afterAll(pattern, [what, opposite(what)]);
    const often = afterAll(pattern, Array.from({ length: 25 }, () => [what, opposite(what)]).flat());
    expect(nodesOf(often.end)).toBeLessThanOrEqual(nodesOf(once.end) + 1);
    expect(farthestOff(pattern, often.end)).toBeLessThan(BOUND);
  });
});
