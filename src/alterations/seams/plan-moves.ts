import { StaywrightError } from '../../errors.ts';
import { pathBox } from '../../geometry/box.ts';
import { SAME_POINT } from '../../geometry/tolerance.ts';
import { seamNamed, type Seam, type SeamEdge } from '../../pattern/look-up.ts';
import type { Pattern } from '../../pattern/pattern.ts';
import { amountAlong, amountsAtLevels, type AmountAlong } from './amount-along.ts';
import type { MoveSeams } from '../move-seams-options.ts';
import { shareGirth } from './share-girth.ts';

/** One seam to move, and how far each of its stitching lines moves in the direction asked for, at each height. */
export interface SeamPlan {
  readonly seam: Seam;
  readonly along: (seamEdge: SeamEdge) => AmountAlong;
}

const refuse = (where: string, message: string, hint: string): never => {
  throw new StaywrightError('usage', message, { where, hint });
};

const checkAmounts = ({ by, where, square }: MoveSeams): void => {
  const option = `--${by.kind}`;
  const amounts = by.kind === 'at' ? by.at.map(({ amount }) => amount) : [by.kind === 'girth' ? by.girth : by.amount];
  if (amounts.some((amount) => !Number.isFinite(amount)))
    refuse(option, 'is not a length', 'give a length such as 12mm');
  if (amounts.every((amount) => Math.abs(amount) < SAME_POINT)) {
    refuse(option, 'moves nothing', 'give a length other than 0');
  }
  if (by.kind === 'at' && where.kind !== 'whole') {
    refuse(`--${where.kind}`, 'does not go with --at', 'give an amount at each level instead, 0 where nothing moves');
  }
  if (by.kind === 'girth' && square) {
    refuse(
      '--square',
      'does not go with --girth',
      'a girth is measured along the level; leave out --square or give --amount',
    );
  }
};

/** The amounts at the ends and breaks of an edge; between these an amount is monotone, so that they tell of all heights. */
export const extremes = ({ edge }: SeamEdge, along: AmountAlong): readonly number[] => {
  const { minY, maxY } = pathBox(edge.path);
  const inside = along.breaks.filter((y) => y > minY && y < maxY);
  return [minY, ...inside, maxY].map(along.value);
};

/** Whether the edge is anywhere in the part that moves. */
export const reaches = (seamEdge: SeamEdge, along: AmountAlong): boolean =>
  extremes(seamEdge, along).some((amount) => Math.abs(amount) >= SAME_POINT);

const refuseAcross = (name: string): never => {
  throw new StaywrightError('usage', `no seam is called ${name}`, {
    hint: `top and bottom edges are moved by redraw-edge: --edge ${name} --at side=6mm`,
  });
};

const namedSeams = (pattern: Pattern, what: MoveSeams): Seam[] => {
  const share = what.by.kind === 'girth' ? what.by.share : undefined;
  const names = what.seams.length > 0 ? what.seams : Object.keys(share ?? {});
  if (names.length === 0) refuse('--seam', 'no seam is named', 'name the seams to move, such as --seam cb');
  return [...new Set(names)].map((name) => {
    if (name === 'top' || name === 'bottom') return refuseAcross(name);
    return seamNamed(pattern, name);
  });
};

/**
 * Turns what a maker asks for into an amount for every height of every stitching line.
 *
 * @throws usage for unknown seams and levels, amounts that are nothing, options that contradict each other, and a seam that has no
 * part where the amount applies.
 */
export const planMoves = (pattern: Pattern, what: MoveSeams): SeamPlan[] => {
  checkAmounts(what);
  const { by, where } = what;
  const seams = namedSeams(pattern, what);
  const amounts = by.kind === 'girth' ? shareGirth(pattern, seams, by.girth, by.share) : [];
  if (by.kind === 'girth' && amounts.every((amount) => Math.abs(amount) < SAME_POINT)) {
    refuse('--girth', 'moves nothing once shared', 'give a larger girth');
  }
  const plans = seams.map((seam, index): SeamPlan => ({
    seam,
    along: ({ panel, edge }) => {
      if (by.kind === 'at') return amountsAtLevels(panel, by.at);
      return amountAlong(panel, edge, by.kind === 'amount' ? by.amount : amounts[index]!, where);
    },
  }));
  for (const { seam, along } of plans) {
    if (seam.edges.some((seamEdge) => reaches(seamEdge, along(seamEdge)))) continue;
    refuse(`seam ${seam.name}`, 'has no part where the amount applies', 'choose levels that the seam reaches');
  }
  return plans;
};
