/** The command that gives the waist its girth back after a slashing that changed it as well. */

import { timesRound } from '../../pattern/girth-at.ts';
import { sewnSeams, sidesOf, type PanelSides, type Seam } from '../../pattern/look-up.ts';
import type { Panel, Side } from '../../pattern/panel.ts';
import type { Pattern } from '../../pattern/pattern.ts';
import type { GirthChange } from '../shape-change.ts';

/** A `take-in` or `let-out` of one seam by an amount for each of its lines at each level; millimetres. */
export interface LetBack {
  readonly command: 'let-out' | 'take-in';
  readonly seam: string;
  /** The side to work on, where left and right are separate panels. */
  readonly side?: Side;
  readonly at: readonly { readonly level: string; readonly amount: number }[];
}

/** A waist changed by less than this round the body, in millimetres, is not worth a second command. */
const WORTH_IT = 0.5;

/** The seam that was slashed; else one that is sewn to a neighbour, whose line moves alike: towards the back before towards the front. */
const seamToMove = (pattern: Pattern, panel: Panel, from: keyof PanelSides): Seam | undefined => {
  const sides = sidesOf(panel)!;
  const seams = sewnSeams(pattern).filter(({ side }) => side === panel.side);
  if (from === 'front' || from === 'back') return seams.find(({ name }) => name === sides[from].name);
  const [back, front] = [sides.back, sides.front].map((edge) => seams.find(({ name }) => name === edge.name));
  return [back, front].find((seam) => seam !== undefined && seam.edges.length > 1) ?? back;
};

/**
 * What brings the waist back to its girth, and with it the levels beyond it as seen from the edge that was slashed, leaving the next
 * level on the other side as it is; undefined where the waist hardly changed.
 */
export const letBack = (
  pattern: Pattern,
  panel: Panel,
  from: keyof PanelSides,
  girth: readonly GirthChange[],
): LetBack | undefined => {
  const waist = girth.findIndex(({ level }) => level === 'waist');
  const seam = seamToMove(pattern, panel, from);
  if (waist < 0 || seam === undefined) return undefined;
  const changed = girth[waist]!.after - girth[waist]!.before;
  if (Math.abs(changed) < WORTH_IT) return undefined;
  const lines = seam.edges.length * timesRound(pattern);
  const command = changed < 0 ? 'let-out' : 'take-in';
  const outwards = command === 'let-out' ? -1 : 1;
  const at = girth.flatMap(({ level, before, after }, i) => {
    const restored = i === waist || (i > waist && from === 'top') || (i < waist && from === 'bottom');
    if (!restored && Math.abs(i - waist) > 1) return [];
    return [{ level, amount: restored ? (outwards * (after - before)) / lines : 0 }];
  });
  return { command, seam: seam.name, ...(panel.side ? { side: panel.side } : {}), at };
};
