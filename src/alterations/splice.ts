/** Splicing: parts of a pattern from another size or version of it, joined with fair lines. */

import { StaywrightError } from '../errors.ts';
import type { Finding } from '../pattern/finding.ts';
import type { Panel } from '../pattern/panel.ts';
import type { Pattern, Units } from '../pattern/pattern.ts';
import { refuseCutting } from '../pattern/refuse-cutting.ts';
import { formatLength } from '../pattern/format-length.ts';
import { changedMateFindings } from '../pattern/mates.ts';
import { alignPanels, type PanelPair } from './splice/align-panels.ts';
import { alterPanels, isTrouble, type RedrawCutting, type Trouble } from './alter-panels.ts';
import { fairBlend, isSteep, type StepOver } from './splice/fair-blend.ts';
import { largestAmount, typedAmount } from './largest-amount.ts';
import { spliceFigures, stepsOf, type SpliceChange } from './splice/splice-figures.ts';
import { splicePanel } from './splice/splice-panel.ts';
import { splicePlan, type SplicePlan, type SpliceWhere } from './splice/splice-plan.ts';

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

/**
 * What is tried where no blend is asked for, after longer ones where lines move far: two inches reach about half-way from waist to bust.
 * Inches for sheets in inches.
 */
const DEFAULT_BLENDS = { mm: [50, 40, 30, 20, 10], in: [50.8, 38.1, 25.4, 12.7] } as const;

/** The longest blend that is offered where a shorter one folds. */
const LONGEST_BLEND = 400;

const plansOf = (pairs: readonly PanelPair[], where: SpliceWhere, blend: number, name: string): SplicePlan[] =>
  pairs.map((pair) => splicePlan(pair, where, blend, name));

/** How far the lines of the pattern move over a blend at most. */
const stepOver =
  (pairs: readonly PanelPair[], where: SpliceWhere, name: string): StepOver =>
  (blend) => {
    const steps = plansOf(pairs, where, blend, name).map((plan, i) => stepsOf(pairs[i]!, plan));
    if (steps.some((each) => each.length === 0)) return undefined;
    return Math.max(0, ...steps.flat().map(({ outwards }) => Math.abs(outwards)));
  };

/** What is tried where no blend is asked for: the usual one or a longer one that is fair, then ever shorter ones. */
const defaultBlends = (where: SpliceWhere, units: Units, over: StepOver): readonly [number, ...number[]] => {
  const usual = DEFAULT_BLENDS[units];
  if (where.kind === 'levels') return usual;
  const longer = fairBlend(usual[0], units, over);
  return longer === usual[0] ? usual : [longer, ...usual];
};

/** A blend over which a line bends so much that it shows, with one that is fair where there is room for it. */
const steepFindings = (
  { blend, steps, where }: SpliceChange,
  units: Units,
  fairer: (blend: number, step: number) => number | undefined,
): Finding[] => {
  const far = steps.toSorted((a, b) => Math.abs(b.outwards) - Math.abs(a.outwards))[0];
  if (where.kind === 'levels' || blend === undefined || far === undefined) return [];
  const step = Math.abs(far.outwards);
  if (!isSteep(blend, step)) return [];
  const fair = fairer(blend, step);
  return [
    {
      weight: 'note',
      kind: 'blend-steep',
      where: `panel ${far.panel}, seam ${far.seam}`,
      message: `moves ${formatLength(step, units)} over a blend of ${formatLength(blend, units)}, which may show as a knee`,
      cure:
        fair === undefined
          ? 'there is no room for a gentler blend; splice at another level, or a version nearer to this one'
          : `a fair blend is --blend ${typedAmount(fair, units).text.replace(' ', '-')}`,
    },
  ];
};

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
  const over = stepOver(pairs, where, name);
  const usual = DEFAULT_BLENDS[pattern.units][0];
  const [first, ...shorter] = blend === undefined ? defaultBlends(where, pattern.units, over) : ([blend] as const);
  let length = first;
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
  const lengthened = blend === undefined && length > usual ? { lengthenedFrom: usual } : {};
  const change = spliceFigures(pattern, other, spliced, { pairs, plans, where, blend: length, ...lengthened });
  const fairer = (tried: number, step: number): number | undefined => {
    const fair = fairBlend(usual, pattern.units, over);
    return fair > tried && (over(fair) ?? Infinity) / fair < step / tried && works(fair) ? fair : undefined;
  };
  return {
    pattern: spliced,
    change,
    findings: [...changedMateFindings(pattern, spliced), ...steepFindings(change, pattern.units, fairer)],
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
