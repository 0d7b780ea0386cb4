/** Raising or lowering the top or bottom line by amounts at named seams. */

import { pathLength } from '../geometry/arc-length.ts';
import { SAME_POINT } from '../geometry/tolerance.ts';
import { StaywrightError } from '../errors.ts';
import type { Finding } from '../pattern/finding.ts';
import { timesRound } from '../pattern/girth-at.ts';
import { edgeNamed, frontEdge, panelNamed, seamNamed } from '../pattern/look-up.ts';
import type { Side } from '../pattern/panel.ts';
import type { Pattern } from '../pattern/pattern.ts';
import { refuseCutting } from '../pattern/refuse-cutting.ts';
import { alterationFindings, alterPanels, isTrouble, type RedrawCutting, type Trouble } from './alter-panels.ts';
import { typedAmount } from './largest-amount.ts';
import { largestPart, partsToTry } from './largest-part.ts';
import { planEdge, type SeamOnLine } from './edges/plan-edge.ts';
import type { RedrawEdge } from './redraw-edge-options.ts';
import { halfOf, shapeChange, type ShapeChange } from './shape-change.ts';
import { slideEdge } from './edges/slide-edge.ts';

/** One seam of the redrawn line, with the lengths of its stitching lines. */
export interface RaisedSeam extends SeamOnLine {
  readonly edges: readonly { readonly panel: string; readonly before: number; readonly after: number }[];
}

export interface EdgeRedrawn extends ShapeChange {
  readonly edge: 'top' | 'bottom';
  /** From centre front to centre back; the left side before the right where they are separate. */
  readonly seams: readonly RaisedSeam[];
  /** The length of the whole line round the body, or round the half of `side` where only its panels were looked at. */
  readonly line: { readonly before: number; readonly after: number; readonly side?: Side };
}

export interface RedrawnEdge {
  readonly pattern: Pattern;
  readonly change: EdgeRedrawn;
  readonly findings: readonly Finding[];
}

const refuse = (message: string, hint: string): never => {
  throw new StaywrightError('usage', message, { where: '--at', hint });
};

const checkWhat = (pattern: Pattern, { at }: RedrawEdge): void => {
  for (const { seam, amount } of at) {
    const { edges } = seamNamed(pattern, seam);
    const gusset = edges.find(({ panel }) => panel.gusset !== undefined);
    if (gusset) {
      const hint = 'name the seams between panels, then set the gusset in again';
      refuse(`${seam} is a side of the gusset ${gusset.panel.name}, which the line passes over`, hint);
    }
    if (!Number.isFinite(amount)) refuse('is not a length', 'give a length such as cb=-12mm');
  }
  if (at.every(({ amount }) => Math.abs(amount) < SAME_POINT)) {
    refuse('moves nothing', 'give at least one seam a length other than 0');
  }
};

const attempt = (pattern: Pattern, what: RedrawEdge, redrawCutting?: RedrawCutting) => {
  const { panels } = planEdge(pattern, what);
  return alterPanels(
    pattern,
    (panel) => {
      const plan = panels.get(panel.name);
      return plan ? slideEdge(panel, what.edge, plan.ends, plan.amount) : panel;
    },
    redrawCutting,
  );
};

/** All amounts by one part, each in a length that can be typed. */
const typedPart = (what: RedrawEdge, part: number, units: Pattern['units']) => {
  const at = what.at.map(({ seam, amount }) => ({ seam, ...typedAmount(amount * part, units) }));
  return {
    what: { ...what, at: at.map(({ seam, mm }) => ({ seam, amount: mm })) },
    moves: at.some(({ mm }) => mm !== 0),
    text: at.map(({ seam, mm, text }) => `${seam}=${mm === 0 ? '0mm' : text}`).join(', '),
  };
};

const refusal = (
  pattern: Pattern,
  what: RedrawEdge,
  { panel, reason }: Trouble,
  redrawCutting?: RedrawCutting,
): StaywrightError => {
  const works = (tried: RedrawEdge): boolean => !isTrouble(attempt(pattern, tried, redrawCutting));
  const scaled = (part: number): RedrawEdge => ({
    ...what,
    at: what.at.map(({ seam, amount }) => ({ seam, amount: amount * part })),
  });
  const largest = partsToTry(largestPart((part) => works(scaled(part))))
    .map((part) => typedPart(what, part, pattern.units))
    .find((typed) => typed.moves && works(typed.what));
  const many = what.at.length > 1;
  const found = many ? 'the largest amounts like these that work are' : 'the largest amount that works is';
  return new StaywrightError('impossible', reason, {
    where: `panel ${panel}`,
    hint: largest ? `${found} ${largest.text}` : 'no amount works there',
  });
};

const lineLength = (pattern: Pattern, edge: 'top' | 'bottom', names: ReadonlySet<string>): number =>
  pattern.panels
    .filter(({ name }) => names.has(name))
    .reduce((sum, panel) => sum + pathLength(edgeNamed(panel, edge).path), 0) * timesRound(pattern);

const lengthIn = (pattern: Pattern, panel: string, edge: string): number =>
  pathLength(edgeNamed(panelNamed(pattern, panel), edge).path);

const figures = (before: Pattern, after: Pattern, what: RedrawEdge): EdgeRedrawn => {
  const { seams, panels } = planEdge(before, what);
  const names = new Set(panels.keys());
  return {
    edge: what.edge,
    seams: seams.map((seam) => ({
      ...seam,
      edges: seam.panels.map((panel) => ({
        panel,
        before: lengthIn(before, panel, seam.seam),
        after: lengthIn(after, panel, seam.seam),
      })),
    })),
    line: {
      before: lineLength(before, what.edge, names),
      after: lineLength(after, what.edge, names),
      ...halfOf(after),
    },
    ...shapeChange(before, after),
  };
};

/** A gusset has no top and stands in no row: the bottom line passes over it. */
const gussetFindings = ({ panels }: Pattern, { edge }: RedrawEdge): Finding[] =>
  panels
    .filter(({ gusset }) => gusset !== undefined && edge === 'bottom')
    .map(({ name }) => ({
      weight: 'warning',
      kind: 'gusset-left',
      where: `panel ${name}`,
      message: 'its bottom is left as it is, though the bottom line was redrawn',
      cure: 'redraw the bottom first and set the gusset in afterwards',
    }));

/**
 * Redraws the top or bottom of all panels as one line: at each named seam it goes up (positive) or down by the amount, measured along
 * the seam, on both panels alike; between named seams the amounts are blended without a peak or a dip, with one slope on both sides of every
 * seam; where centre front or centre back is not named nothing moves there. Seams are cut off or drawn on along themselves.
 * Accuracy: seam lengths LENGTH_TOLERANCE, the line REFIT_TOLERANCE.
 *
 * @throws usage for unknown seams and amounts that move nothing; input for panels that carry allowance or were never labelled;
 * impossible, with the largest amounts that work, where a panel would lose a level, have too short a seam or cross itself.
 */
export const redrawEdge = (pattern: Pattern, what: RedrawEdge, redrawCutting?: RedrawCutting): RedrawnEdge => {
  refuseCutting(pattern);
  for (const panel of pattern.panels) if (!panel.gusset) frontEdge(panel);
  checkWhat(pattern, what);
  const panels = attempt(pattern, what, redrawCutting);
  if (isTrouble(panels)) throw refusal(pattern, what, panels, redrawCutting);
  const redrawn = { ...pattern, panels };
  return {
    pattern: redrawn,
    change: figures(pattern, redrawn, what),
    findings: [...alterationFindings(pattern, redrawn), ...gussetFindings(pattern, what)],
  };
};
