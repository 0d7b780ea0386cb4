/** Splicing: parts of a pattern from another size or version of it, joined with fair lines. */

import { StaywrightError } from '../errors.ts';
import type { Finding } from '../pattern/finding.ts';
import type { Panel } from '../pattern/panel.ts';
import type { Pattern } from '../pattern/pattern.ts';
import { refuseCutting } from '../pattern/refuse-cutting.ts';
import { changedMateFindings } from '../pattern/mates.ts';
import { alignPanels, type PanelPair } from './align-panels.ts';
import { alterPanels, isTrouble, type RedrawCutting, type Trouble } from './alter-panels.ts';
import { largestAmount, typedAmount } from './largest-amount.ts';
import { spliceFigures, type SpliceChange } from './splice-figures.ts';
import { splicePanel } from './splice-panel.ts';
import { splicePlan, type SplicePlan, type SpliceWhere } from './splice-plan.ts';

/** What to take from the other version. */
export interface Splice {
  readonly where: SpliceWhere;
  /** Millimetres from the level to where all is the other's; for `above` and `below` alone. Absent: the default, or what there is room for. */
  readonly blend?: number;
}

export interface Spliced {
  readonly pattern: Pattern;
  readonly change: SpliceChange;
  readonly findings: readonly Finding[];
}

/** What is tried where no blend is asked for: two inches reach about half-way from waist to bust. Inches for sheets in inches. */
const DEFAULT_BLENDS = { mm: [50, 40, 30, 20, 10], in: [50.8, 38.1, 25.4, 12.7] } as const;

/** The longest blend that is offered where a shorter one folds. */
const LONGEST_BLEND = 400;

const plansOf = (pairs: readonly PanelPair[], where: SpliceWhere, blend: number, name: string): SplicePlan[] =>
  pairs.map((pair) => splicePlan(pair, where, blend, name));

/** How a maker mends a blend that does not fit: a shorter one, or a longer one. */
const blendHint = (blend: number, pattern: Pattern, works: (blend: number) => boolean): string => {
  const shorter = largestAmount(blend, pattern.units, works);
  if (shorter) return `the largest blend that works is ${shorter.text}`;
  for (let longer = blend * 1.25; longer < LONGEST_BLEND; longer *= 1.25) {
    const typed = typedAmount(longer, pattern.units);
    if (works(typed.mm)) return `a longer one works: --blend ${typed.text}`;
  }
  return 'no blend works there; splice at another level';
};

/**
 * Takes parts of a pattern from another version of it, panel by panel, matched at the waist and on the grain. Above or below a level:
 * nothing of the other at the level, all of it from `blend` on; or at some levels, each exactly from one version, blended between. Outside
 * the blends every edge is that of its version to the point; in them it is within REFIT_TOLERANCE of the mean of the two with a weight
 * that is flat at both ends. Where levels lie at other heights about the waist in the two, heights are blended alike. Levels, grainlines,
 * bones, allowance and units stay this pattern's; where nothing differs the result is the very same pattern. `name` is what messages call the other.
 *
 * @throws usage for levels that do not fit; input where the two are not versions of one pattern or still carry allowance; impossible,
 * with a blend that works, where a seam turns back, ends or folds in a blend, or a panel could not be sewn.
 */
export const splice = (
  pattern: Pattern,
  other: Pattern,
  { where, blend }: Splice,
  name: string,
  redrawCutting?: RedrawCutting,
): Spliced => {
  refuseCutting(pattern);
  refuseOtherCutting(other, name);
  const pairs = alignPanels(pattern, other, name);
  const attempt = (length: number): readonly Panel[] | Trouble => {
    const plans = plansOf(pairs, where, length, name);
    const alter = (panel: Panel): Panel | string => {
      const at = pattern.panels.indexOf(panel);
      return splicePanel(pairs[at]!, plans[at]!);
    };
    return alterPanels(pattern, alter, redrawCutting);
  };
  const works = (length: number): boolean => length > 0 && !isTrouble(attempt(length));
  const [first, ...shorter] = blend === undefined ? DEFAULT_BLENDS[pattern.units] : [blend];
  let length = first!;
  let panels = attempt(length);
  if (isTrouble(panels)) {
    const { panel, reason } = panels;
    const fitting = shorter.find(works);
    if (fitting === undefined) {
      const hint = where.kind === 'levels' ? 'give other levels by --size' : blendHint(length, pattern, works);
      throw new StaywrightError('impossible', reason, { where: `panel ${panel}`, hint });
    }
    length = fitting;
    panels = attempt(length) as readonly Panel[];
  }
  const spliced = panels.every((panel, i) => panel === pattern.panels[i]) ? pattern : { ...pattern, panels };
  const plans = plansOf(pairs, where, length, name);
  return {
    pattern: spliced,
    change: spliceFigures(pattern, other, spliced, { pairs, plans, where, blend: length }),
    findings: changedMateFindings(pattern, spliced),
  };
};

const refuseOtherCutting = (other: Pattern, name: string): void => {
  try {
    refuseCutting(other);
  } catch (error) {
    if (!(error instanceof StaywrightError)) throw error;
    const hint = error.hint === undefined ? {} : { hint: error.hint };
    throw new StaywrightError(error.code, error.message, { where: `${name}, ${error.where}`, ...hint, cause: error });
  }
};
