/** Taking in and letting out: moving the stitching lines of seams by exact amounts. */

import type { Finding } from '../pattern/finding.ts';
import type { Panel } from '../pattern/panel.ts';
import type { Pattern } from '../pattern/pattern.ts';
import { refuseCutting } from '../pattern/refuse-cutting.ts';
import { alterationFindings, alterPanels, isTrouble, type RedrawCutting, type Trouble } from './alter-panels.ts';
import { scaleAmount } from './seams/amount-along.ts';
import { largestPart, partsToTry } from './largest-part.ts';
import { movePanelEdges, type EdgeMove } from './seams/move-panel-edges.ts';
import type { MoveSeams } from './move-seams-options.ts';
import { planMoves, reaches, type SeamPlan } from './seams/plan-moves.ts';
import { seamFigures, type SeamsChange } from './seams/seam-figures.ts';
import { refusal, typedPart, type TypedPart } from './seams/typed-part.ts';

export interface MovedSeams {
  readonly pattern: Pattern;
  readonly change: SeamsChange;
  readonly findings: readonly Finding[];
}

/** The moves of a panel's own edges, with the direction turned into outwards. */
const movesOf = (panel: Panel, plans: readonly SeamPlan[], direction: 'in' | 'out'): EdgeMove[] =>
  plans.flatMap(({ seam, along }) =>
    seam.edges
      .filter((seamEdge) => seamEdge.panel === panel)
      .map((seamEdge) => ({ seamEdge, amount: along(seamEdge) }))
      .filter(({ seamEdge, amount }) => reaches(seamEdge, amount))
      .map(({ seamEdge, amount }) => ({
        edge: seamEdge.edge,
        outward: scaleAmount(amount, direction === 'out' ? 1 : -1),
      })),
  );

/** All panels altered, or the first trouble. */
const attempt = (
  pattern: Pattern,
  plans: readonly SeamPlan[],
  what: MoveSeams,
  redrawCutting?: RedrawCutting,
): readonly Panel[] | Trouble => {
  const move = (panel: Panel): Panel | string => {
    const moves = movesOf(panel, plans, what.direction);
    return moves.length === 0 ? panel : movePanelEdges(panel, moves, what.square);
  };
  return alterPanels(pattern, move, redrawCutting);
};

const scalePlans = (plans: readonly SeamPlan[], part: number): SeamPlan[] =>
  plans.map(({ seam, along }) => ({ seam, along: (seamEdge) => scaleAmount(along(seamEdge), part) }));

/** The largest alteration of the same kind that was seen to work, in lengths a maker can type. */
const largestTyped = (
  pattern: Pattern,
  plans: readonly SeamPlan[],
  what: MoveSeams,
  redrawCutting?: RedrawCutting,
): TypedPart | undefined => {
  const part = largestPart((tried) => !isTrouble(attempt(pattern, scalePlans(plans, tried), what, redrawCutting)));
  for (const tried of partsToTry(part)) {
    const typed = typedPart(what, tried, pattern.units);
    if (typed && !isTrouble(attempt(pattern, planMoves(pattern, typed.what), typed.what, redrawCutting))) return typed;
  }
  return undefined;
};

/**
 * Takes in or lets out seams: each of their stitching lines moves by the amount asked for, along the level, exactly at each level;
 * the moved line meets the edges beside it where those, trimmed or extended along themselves, cross it. Only edges that must change
 * do; grainlines stay, notches and levels are settled. `redrawCutting` draws the cutting line of a panel again that has one.
 * Accuracy: amounts at levels 0.01 mm, elsewhere REFIT_TOLERANCE.
 *
 * @throws usage for names, levels and amounts that do not fit; input for panels that still carry allowance; impossible, with the
 * largest amount that works, where a panel would cross itself, get too narrow, lose a level, have too short a seam or no cutting line.
 */
export const moveSeams = (pattern: Pattern, what: MoveSeams, redrawCutting?: RedrawCutting): MovedSeams => {
  refuseCutting(pattern);
  const plans = planMoves(pattern, what);
  const panels = attempt(pattern, plans, what, redrawCutting);
  if (isTrouble(panels)) throw refusal(panels.panel, panels.reason, largestTyped(pattern, plans, what, redrawCutting));
  const moved = { ...pattern, panels };
  return {
    pattern: moved,
    change: seamFigures(pattern, moved, what, plans),
    findings: alterationFindings(pattern, moved),
  };
};
