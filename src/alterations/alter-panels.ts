import { StaywrightError } from '../errors.ts';
import type { Finding } from '../pattern/finding.ts';
import { changedGussetFindings } from '../pattern/gusset-findings.ts';
import { changedMateFindings } from '../pattern/mates.ts';
import type { Panel } from '../pattern/panel.ts';
import type { Pattern, Units } from '../pattern/pattern.ts';
import { settleMarks } from '../pattern/settle-marks.ts';
import { notchFindings } from './notch-findings.ts';
import { panelTrouble } from './panel-trouble.ts';

/** Why an alteration cannot be done on a panel: `reason` in words that follow the panel's name. */
export interface Trouble {
  readonly panel: string;
  readonly reason: string;
}

/** Draws the cutting line of a panel again from the widths of its edges. */
export type RedrawCutting = (panel: Panel) => Panel;

/** One panel altered, its marks not settled yet; the very same panel where nothing changes; or the reason why it cannot be. */
export type AlterPanel = (panel: Panel) => Panel | string;

export const isTrouble = (outcome: readonly Panel[] | Trouble): outcome is Trouble => 'reason' in outcome;

const alterPanel = (
  panel: Panel,
  alter: AlterPanel,
  units: Units,
  redrawCutting: RedrawCutting | undefined,
): Panel | string => {
  const altered = alter(panel);
  if (altered === panel || typeof altered === 'string') return altered;
  const reason = panelTrouble(panel, altered, units);
  if (reason !== undefined) return reason;
  try {
    return settleMarks(panel, altered, redrawCutting);
  } catch (error) {
    if (!(error instanceof StaywrightError) || error.code !== 'impossible') throw error;
    return `would have no sound cutting line (${error.message})`;
  }
};

/** Every panel altered, checked and settled, or the first trouble. */
export const alterPanels = (
  pattern: Pattern,
  alter: AlterPanel,
  redrawCutting?: RedrawCutting,
): readonly Panel[] | Trouble => {
  const panels: Panel[] = [];
  for (const panel of pattern.panels) {
    const done = alterPanel(panel, alter, pattern.units, redrawCutting);
    if (typeof done === 'string') return { panel: panel.name, reason: done };
    panels.push(done);
  }
  return panels;
};

/** What a maker should know after an alteration that kept the panels: notches at an end, seams whose edges no longer match, gussets that no longer fit. */
export const alterationFindings = (before: Pattern, after: Pattern): Finding[] => [
  ...after.panels.flatMap((panel, index) => notchFindings(before.panels[index]!, panel)),
  ...changedMateFindings(before, after),
  ...changedGussetFindings(before, after),
];
