/** How the parts of a slashed panel move: each as one rigid piece, following its neighbour about the hinge between them. */

import { compose, IDENTITY, rotation, translation, type Matrix } from '../../geometry/matrix.ts';
import { distance } from '../../geometry/point.ts';
import { cross, unit, vectorTo } from '../../geometry/vector.ts';
import type { SlashPlan } from './plan-slash.ts';
import type { SlashLine } from './slash-lines.ts';

/** A rigid motion and its turn in radians, positive clockwise on paper. */
export interface PartMotion {
  readonly matrix: Matrix;
  readonly turn: number;
}

/** A part turned farther than this is no longer the panel that it was. */
const MOST_TURN = Math.PI / 4;

const STILL: PartMotion = { matrix: IDENTITY, turn: 0 };

const after = (outer: PartMotion, inner: PartMotion): PartMotion => ({
  matrix: compose(outer.matrix, inner.matrix),
  turn: outer.turn + inner.turn,
});

/**
 * What opens a slash: the turn about its foot that brings the two sides of its mouth exactly the spread apart, or the way straight
 * apart; `share` of it, of the part that follows against the one before.
 */
const opening = ({ way, parallel, spread }: SlashPlan, { mouth, foot }: SlashLine, share: number): PartMotion => {
  const onwards = way === 'down' ? { dx: 1, dy: 0 } : { dx: 0, dy: 1 };
  if (parallel) return { matrix: translation(onwards.dx * spread * share, onwards.dy * spread * share), turn: 0 };
  const ratio = Math.min(1, Math.max(-1, spread / (2 * distance(foot, mouth.point))));
  const clockwise = Math.sign(cross(unit(vectorTo(foot, mouth.point)), onwards));
  const turn = clockwise * 2 * Math.asin(ratio) * share;
  const about = compose(translation(foot.x, foot.y), compose(rotation(turn), translation(-foot.x, -foot.y)));
  return { matrix: about, turn };
};

/**
 * The motion of each part, in order; a part that is held stays exactly where it is. Instead, the reason in words where a part would
 * turn by more than 45 degrees.
 */
export const turnParts = (plan: SlashPlan, lines: readonly SlashLine[]): readonly PartMotion[] | string => {
  const motions: PartMotion[] = [];
  let [first, last] = [0, 0];
  if ('part' in plan.held) {
    first = plan.held.part;
    last = first;
    motions[first] = STILL;
  } else {
    first = plan.held.bothSidesOf;
    last = first + 1;
    motions[first] = opening(plan, lines[first]!, -1 / 2);
    motions[last] = opening(plan, lines[first]!, 1 / 2);
  }
  for (let part = first - 1; part >= 0; part -= 1)
    motions[part] = after(motions[part + 1]!, opening(plan, lines[part]!, -1));
  for (let part = last + 1; part <= lines.length; part += 1)
    motions[part] = after(motions[part - 1]!, opening(plan, lines[part - 1]!, 1));
  const steps = motions.slice(1).map(({ turn }, part) => turn - motions[part]!.turn);
  const tooFar = [...steps, ...motions.map(({ turn }) => turn)].some((turn) => Math.abs(turn) > MOST_TURN);
  return tooFar ? 'would have a part turned by more than 45 degrees' : motions;
};
