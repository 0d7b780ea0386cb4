/** Short ways of writing what is asked of seams in tests. */

import type { MoveBy, MoveSeams } from '../../src/alterations/move-seams-options.ts';
import type { LevelRef } from '../../src/pattern/level-ref.ts';

/** `at('waist')` or, 50 mm above it, `at('waist', 50)`. */
export const at = (name: string, offset = 0): LevelRef => ({
  name,
  offset,
  text: offset === 0 ? name : `${name}${offset > 0 ? '+' : ''}${offset}mm`,
});

const asked = (direction: 'in' | 'out', seams: readonly string[], by: number | MoveBy, more: Partial<MoveSeams>) => ({
  seams,
  direction,
  by: typeof by === 'number' ? ({ kind: 'amount', amount: by } as const) : by,
  where: { kind: 'whole' } as const,
  square: false,
  ...more,
});

/** Taking in; a bare number is an amount for each line. */
export const takeIn = (seams: readonly string[], by: number | MoveBy, more: Partial<MoveSeams> = {}): MoveSeams =>
  asked('in', seams, by, more);

export const letOut = (seams: readonly string[], by: number | MoveBy, more: Partial<MoveSeams> = {}): MoveSeams =>
  asked('out', seams, by, more);

/** The same the other way. */
export const opposite = (what: MoveSeams): MoveSeams => ({
  ...what,
  direction: what.direction === 'in' ? 'out' : 'in',
});
