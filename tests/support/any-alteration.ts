/** An alteration of any kind as a value, so that tests can make chains of mixed ones, undo them and draw them at random. */

import { changeLength, type ChangeLength } from '../../src/alterations/change-length.ts';
import { setGusset } from '../../src/alterations/gusset.ts';
import type { GussetWanted } from '../../src/alterations/gusset-options.ts';
import { moveSeams } from '../../src/alterations/move-seams.ts';
import type { MoveSeams } from '../../src/alterations/move-seams-options.ts';
import type { RaiseLine } from '../../src/alterations/heights/plan-raise.ts';
import { raiseLine } from '../../src/alterations/raise-line.ts';
import { redrawEdge } from '../../src/alterations/redraw-edge.ts';
import type { RedrawEdge } from '../../src/alterations/redraw-edge-options.ts';
import { slash } from '../../src/alterations/slash.ts';
import type { Slash } from '../../src/alterations/slash-options.ts';
import { splice, type Splice } from '../../src/alterations/splice.ts';
import { splitSides } from '../../src/alterations/split-sides.ts';
import { trueSeams } from '../../src/alterations/true-seams.ts';
import type { TrueSeams } from '../../src/alterations/true-seams-options.ts';
import type { GirthChange } from '../../src/alterations/shape-change.ts';
import { takeSide, wholePattern } from '../../src/cli/one-side.ts';
import type { Side } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { opposite as oppositeMove } from './moves.ts';

/** Those that an opposite amount undoes. */
export type Undoable = (
  | { readonly kind: 'move'; readonly what: MoveSeams }
  | { readonly kind: 'raise'; readonly what: RaiseLine }
  | { readonly kind: 'length'; readonly what: ChangeLength }
  | { readonly kind: 'redraw'; readonly what: RedrawEdge }
  | { readonly kind: 'slash'; readonly what: Slash }
) & {
  /** The panels of that side only. */
  readonly side?: Side;
};

export type Alteration =
  | Undoable
  | { readonly kind: 'true'; readonly what: TrueSeams }
  | { readonly kind: 'splice'; readonly what: Splice; readonly other: Pattern }
  | { readonly kind: 'gusset'; readonly what: GussetWanted }
  | { readonly kind: 'split' };

/** What came of it: the girths that it says it changed are of the panels that it worked on. */
export interface Altered {
  readonly pattern: Pattern;
  /** The pattern, or the half of it, that the figures speak of. */
  readonly looked: Pattern;
  readonly girth: readonly GirthChange[];
}

const done = (pattern: Pattern, alteration: Alteration) => {
  switch (alteration.kind) {
    case 'move':
      return moveSeams(pattern, alteration.what);
    case 'raise':
      return raiseLine(pattern, alteration.what);
    case 'length':
      return changeLength(pattern, alteration.what);
    case 'redraw':
      return redrawEdge(pattern, alteration.what);
    case 'slash':
      return slash(pattern, alteration.what);
    case 'true':
      return trueSeams(pattern, alteration.what);
    case 'splice':
      return splice(pattern, alteration.other, alteration.what, 'the other');
    case 'gusset':
      return setGusset(pattern, alteration.what);
    case 'split':
      return { pattern: splitSides(pattern).pattern, change: { girth: [] } };
  }
};

export const altered = (pattern: Pattern, alteration: Alteration): Altered => {
  const side = 'side' in alteration ? alteration.side : undefined;
  const half = side === undefined ? { pattern } : takeSide({ pattern, record: [] }, side);
  const { pattern: looked, change } = done(half.pattern, alteration);
  const { aside } = half as ReturnType<typeof takeSide>;
  return { pattern: wholePattern(looked, aside), looked, girth: change.girth };
};

/** The same by the opposite amount. */
export const opposite = (alteration: Undoable): Undoable => {
  const side = alteration.side === undefined ? {} : { side: alteration.side };
  switch (alteration.kind) {
    case 'move':
      return { kind: 'move', what: oppositeMove(alteration.what), ...side };
    case 'raise':
      return { kind: 'raise', what: { ...alteration.what, amount: -alteration.what.amount }, ...side };
    case 'length':
      return { kind: 'length', what: { ...alteration.what, amount: -alteration.what.amount }, ...side };
    case 'redraw': {
      const at = alteration.what.at.map(({ seam, amount }) => ({ seam, amount: -amount }));
      return { kind: 'redraw', what: { ...alteration.what, at }, ...side };
    }
    case 'slash':
      return { kind: 'slash', what: { ...alteration.what, spread: -alteration.what.spread }, ...side };
  }
};
