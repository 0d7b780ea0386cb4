/** Slashing a panel and spreading or overlapping its parts. */

import { StaywrightError } from '../errors.ts';
import type { Finding } from '../pattern/finding.ts';
import { panelNamed, sidesOf } from '../pattern/look-up.ts';
import type { Panel } from '../pattern/panel.ts';
import type { Pattern } from '../pattern/pattern.ts';
import { refuseCutting } from '../pattern/refuse-cutting.ts';
import { alterationFindings, alterPanels, isTrouble, type RedrawCutting, type Trouble } from './alter-panels.ts';
import { refuseAmount } from './largest-amount.ts';
import { letBack, type LetBack } from './slash/let-back.ts';
import { planSlash, type SlashPlan } from './slash/plan-slash.ts';
import { shapeChange, type ShapeChange } from './shape-change.ts';
import { slashLines, type SlashLine } from './slash/slash-lines.ts';
import type { Slash } from './slash-options.ts';
import { slashPanel } from './slash/slash-panel.ts';
import { turnParts } from './slash/turn-parts.ts';

export interface SlashChange extends ShapeChange {
  readonly panel: string;
  readonly from: string;
  /** What was typed, or undefined where the parts moved straight apart. */
  readonly hinge?: string;
  readonly way: SlashPlan['way'];
  /** How many slashes, and how far each opened, in millimetres; negative overlapped. */
  readonly lines: number;
  readonly spread: number;
  /** The turn of each part off the grain in radians, positive clockwise on paper: its top leans to the back. In order from the front, or the top. */
  readonly turns: readonly number[];
  readonly letBack?: LetBack;
}

export interface Slashed {
  readonly pattern: Pattern;
  readonly change: SlashChange;
  readonly findings: readonly Finding[];
}

const attempt = (
  pattern: Pattern,
  panel: Panel,
  plan: SlashPlan,
  lines: readonly SlashLine[],
  redrawCutting: RedrawCutting | undefined,
): readonly Panel[] | Trouble => {
  const alter = (each: Panel): Panel | string => {
    if (each !== panel) return each;
    const motions = turnParts(plan, lines);
    return typeof motions === 'string' ? motions : slashPanel(panel, plan, lines, motions);
  };
  return alterPanels(pattern, alter, redrawCutting);
};

/**
 * Slashes one panel and opens (or overlaps) every slash by exactly the spread where it starts, turning the parts as rigid pieces about
 * the other ends of the slashes, or moving them straight apart. Crossed edges become one fair line each; an edge that hinges keeps its
 * length; seams turn with the outermost parts, and beside a level that hinges blend back into what lies beyond it, which stays. Other
 * panels stay: seams that no longer match are among the findings. Accuracy: parts are rigid within REFIT_TOLERANCE away from the gaps, but
 * where slashes lie too close for fair bridges, or more than three cross a plain curve, that line spreads evenly from part to part.
 *
 * @throws usage for names, levels and numbers that do not fit; input for panels that still carry allowance or were never labelled;
 * impossible where a slash would leave the panel, or, with the largest spread that works, where the panel would come out unsound.
 */
export const slash = (pattern: Pattern, what: Slash, redrawCutting?: RedrawCutting): Slashed => {
  refuseCutting(pattern);
  const panel = panelNamed(pattern, what.panel);
  const plan = planSlash(panel, what);
  const lines = slashLines(panel, sidesOf(panel)!, plan, pattern.units);
  const tryWith = (spread: number): readonly Panel[] | Trouble =>
    attempt(pattern, panel, { ...plan, spread }, lines, redrawCutting);
  const panels = tryWith(plan.spread);
  if (isTrouble(panels))
    throw refuseAmount(panels, plan.spread, pattern.units, (spread) => !isTrouble(tryWith(spread)));
  const slashed = { ...pattern, panels };
  const motions = turnParts(plan, lines);
  if (typeof motions === 'string') throw new StaywrightError('impossible', motions, { where: `panel ${panel.name}` });
  const shape = shapeChange(pattern, slashed);
  const back = letBack(slashed, panelNamed(slashed, panel.name), plan.from, shape.girth);
  return {
    pattern: slashed,
    change: {
      panel: panel.name,
      from: what.from,
      ...(what.hinge ? { hinge: what.hinge.text } : {}),
      way: plan.way,
      lines: lines.length,
      spread: plan.spread,
      turns: motions.map(({ turn }) => turn),
      ...(back ? { letBack: back } : {}),
      ...shape,
    },
    findings: alterationFindings(pattern, slashed),
  };
};
