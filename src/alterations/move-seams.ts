/** Taking in and letting out: moving the stitching lines of seams by exact amounts. */

import { StaywrightError } from '../errors.ts';
import type { Finding } from '../pattern/finding.ts';
import { changedMateFindings } from '../pattern/mates.ts';
import type { Panel } from '../pattern/panel.ts';
import type { Pattern, Units } from '../pattern/pattern.ts';
import { refuseCutting } from '../pattern/refuse-cutting.ts';
import { settleMarks } from '../pattern/settle-marks.ts';
import { scaleAmount } from './amount-along.ts';
import { LARGEST_PART_ERROR, largestPart } from './largest-part.ts';
import { movePanelEdges, type EdgeMove } from './move-panel-edges.ts';
import type { MoveSeams } from './move-seams-options.ts';
import { notchFindings } from './notch-findings.ts';
import { panelTrouble } from './panel-trouble.ts';
import { planMoves, reaches, type SeamPlan } from './plan-moves.ts';
import { seamFigures, type SeamsChange } from './seam-figures.ts';
import { refusal, typedPart, type TypedPart } from './typed-part.ts';

export interface MovedSeams {
  readonly pattern: Pattern;
  readonly change: SeamsChange;
  readonly findings: readonly Finding[];
}

/** Why the alteration cannot be done on a panel. */
interface Trouble {
  readonly panel: string;
  readonly reason: string;
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

type RedrawCutting = (panel: Panel) => Panel;

/** One panel altered and settled, or why it cannot be. */
const attemptPanel = (
  panel: Panel,
  moves: readonly EdgeMove[],
  square: boolean,
  units: Units,
  redrawCutting?: RedrawCutting,
): Panel | string => {
  const moved = movePanelEdges(panel, moves, square);
  if (typeof moved === 'string') return moved;
  const reason = panelTrouble(panel, moved, units);
  if (reason !== undefined) return reason;
  try {
    return settleMarks(panel, moved, redrawCutting);
  } catch (error) {
    if (!(error instanceof StaywrightError) || error.code !== 'impossible') throw error;
    return `would have no sound cutting line (${error.message})`;
  }
};

/** All panels altered, or the first trouble. */
const attempt = (
  pattern: Pattern,
  plans: readonly SeamPlan[],
  what: MoveSeams,
  redrawCutting?: RedrawCutting,
): readonly Panel[] | Trouble => {
  const panels: Panel[] = [];
  for (const panel of pattern.panels) {
    const moves = movesOf(panel, plans, what.direction);
    const done = moves.length === 0 ? panel : attemptPanel(panel, moves, what.square, pattern.units, redrawCutting);
    if (typeof done === 'string') return { panel: panel.name, reason: done };
    panels.push(done);
  }
  return panels;
};

const isTrouble = (outcome: readonly Panel[] | Trouble): outcome is Trouble => 'reason' in outcome;

const scalePlans = (plans: readonly SeamPlan[], part: number): SeamPlan[] =>
  plans.map(({ seam, along }) => ({ seam, along: (seamEdge) => scaleAmount(along(seamEdge), part) }));

/** Where a typed amount turns out not to work after all, ever smaller parts of it are tried. */
const SMALLER = [1, 0.97, 0.94, 0.9, 0.8, 0.5] as const;

/** The largest alteration of the same kind that was seen to work, in lengths a maker can type. */
const largestTyped = (
  pattern: Pattern,
  plans: readonly SeamPlan[],
  what: MoveSeams,
  redrawCutting?: RedrawCutting,
): TypedPart | undefined => {
  const part = largestPart((tried) => !isTrouble(attempt(pattern, scalePlans(plans, tried), what, redrawCutting)));
  for (const tried of [part + LARGEST_PART_ERROR, ...SMALLER.map((smaller) => part * smaller)]) {
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
    findings: [
      ...panels.flatMap((panel, index) => notchFindings(pattern.panels[index]!, panel)),
      ...changedMateFindings(pattern, moved),
    ],
  };
};
