/** Lengthening and shortening between two levels: what lies beyond them moves away from the waist or towards it as it is. */

import { StaywrightError } from '../errors.ts';
import { SAME_POINT } from '../geometry/tolerance.ts';
import type { Finding } from '../pattern/finding.ts';
import type { LevelRef } from '../pattern/level-ref.ts';
import { levelNames } from '../pattern/look-up.ts';
import { suggestName } from '../pattern/suggest.ts';
import type { Panel } from '../pattern/panel.ts';
import type { Pattern } from '../pattern/pattern.ts';
import { refuseCutting } from '../pattern/refuse-cutting.ts';
import { alterationFindings, alterPanels, isTrouble, type RedrawCutting, type Trouble } from './alter-panels.ts';
import { refuseAmount } from './largest-amount.ts';
import { levelHeights, refuseNoLength, tooNear, type LevelHeight } from './heights/level-heights.ts';
import { movePanelUpright } from './heights/move-panel-upright.ts';
import { shapeChange, type ShapeChange } from './shape-change.ts';
import { refuseOffPanels, sharedLevelY, sharedSpan, waistHeight } from './heights/shared-span.ts';
import { stretchBetween, type StretchZone } from './heights/stretch-between.ts';

/** A change of length, as a maker asks for it. */
export interface ChangeLength {
  readonly between: readonly [LevelRef, LevelRef];
  readonly direction: 'longer' | 'shorter';
  /** Millimetres by which the distance between the two levels changes; negative is the opposite direction. */
  readonly amount: number;
}

export interface LengthChange extends ShapeChange {
  /** As typed, the higher first. */
  readonly between: readonly [string, string];
  /** Millimetres by which the part between is longer now; negative where it is shorter. */
  readonly longer: number;
  /** How far all above the higher level moves up, and all below the lower one down, on the first panel. */
  readonly up: number;
  readonly down: number;
  readonly heights: readonly LevelHeight[];
}

export interface ChangedLength {
  readonly pattern: Pattern;
  readonly change: LengthChange;
  readonly findings: readonly Finding[];
}

interface LengthPlan {
  readonly between: readonly [string, string];
  readonly zones: ReadonlyMap<Panel, StretchZone>;
}

const checkNames = (pattern: Pattern, between: readonly LevelRef[]): void => {
  const names = [...levelNames(pattern), 'top', 'bottom'];
  const unknown = between.find(({ name }) => !names.includes(name));
  if (unknown === undefined) return;
  throw new StaywrightError('usage', `no level is called ${unknown.name}`, {
    where: '--between',
    hint: suggestName(unknown.name, names),
  });
};

const zoneOf = (waist: number, high: number, low: number): StretchZone => {
  const still = waist <= high + SAME_POINT ? 'high' : waist >= low - SAME_POINT ? 'low' : 'centre';
  return { high, centre: still === 'centre' ? waist : (high + low) / 2, low, still };
};

/** The zone of every panel; a gusset has that of the first panel, at the same distance from the waist. */
const planLength = (pattern: Pattern, { between }: ChangeLength): LengthPlan => {
  const waists = new Map(pattern.panels.map((panel) => [panel, waistHeight(panel)]));
  checkNames(pattern, between);
  const span = sharedSpan(pattern.panels);
  for (const ref of between) refuseOffPanels(pattern.panels, ref, '--between');
  const heights = (panel: Panel): number[] => between.map((ref) => sharedLevelY(panel, ref, span) - waists.get(panel)!);
  const first = pattern.panels.find(({ gusset }) => gusset === undefined)!;
  const order = (panel: Panel): number => {
    const [one, other] = heights(panel) as [number, number];
    return Math.abs(one - other) <= SAME_POINT ? 0 : Math.sign(other - one);
  };
  const [one, other] = between.map(({ text }) => text) as [string, string];
  const zones = new Map(
    pattern.panels.map((panel): [Panel, StretchZone] => {
      const host = panel.gusset === undefined ? panel : first;
      if (order(host) === 0 || order(host) !== order(first)) {
        throw new StaywrightError(
          'usage',
          `${one} and ${other} are no two levels, one above the other, on ${host.name}`,
          {
            where: '--between',
            hint: 'give two levels, such as bust,waist',
          },
        );
      }
      const waist = waists.get(panel)!;
      const [high, low] = heights(host).toSorted((a, b) => a - b) as [number, number];
      return [panel, zoneOf(waist, waist + high, waist + low)];
    }),
  );
  return { between: order(first) > 0 ? [one, other] : [other, one], zones };
};

const attempt = (
  pattern: Pattern,
  plan: LengthPlan,
  longer: number,
  redrawCutting: RedrawCutting | undefined,
): readonly Panel[] | Trouble =>
  alterPanels(
    pattern,
    (panel) => {
      const zone = plan.zones.get(panel)!;
      const [high, low] = plan.between;
      if (zone.low - zone.high + longer <= SAME_POINT) return `would have no length left between ${high} and ${low}`;
      const amounts = stretchBetween(zone, longer);
      const isEnd = (y: number): boolean => Math.min(Math.abs(y - zone.high), Math.abs(y - zone.low)) <= SAME_POINT;
      const stops = [
        { name: high, y: zone.high },
        ...panel.levels.filter(({ y }) => !isEnd(y)),
        { name: low, y: zone.low },
      ].toSorted((a, b) => a.y - b.y);
      return tooNear(stops, (y) => y + amounts.value(y), pattern.units) ?? movePanelUpright(panel, amounts, 'all');
    },
    redrawCutting,
  );

const artFindings = (before: Pattern, after: Pattern): Finding[] =>
  after.panels
    .filter((panel, index) => panel.art !== undefined && panel !== before.panels[index])
    .map(({ name }) => ({
      weight: 'note',
      kind: 'art-stays',
      where: `panel ${name}`,
      message: 'its artwork stays where it was drawn; edges and marks moved',
    }));

/**
 * Makes the distance between two levels longer or shorter by an amount in mm on every panel. The waist stays; all beyond the two
 * levels moves straight away from it, or towards it, as it is, with top and bottom edges, levels, notches, bones and the grainline's ends.
 * Between them the stretch fades in and out, so that seams stay smooth; with the waist between, its two sides share the amount in
 * proportion. Every level that moves keeps its width, to 0.002 mm, and the opposite amount undoes it. `top` and `bottom` are the lowest
 * top and the highest bottom of all panels. `redrawCutting` draws the cutting line of a panel again that has one.
 *
 * @throws usage for levels and amounts that do not fit; input for panels that still carry allowance or were never labelled; impossible, with
 * the largest amount that works, where levels would come within 5 mm or a seam would be under 10 mm long.
 */
export const changeLength = (pattern: Pattern, what: ChangeLength, redrawCutting?: RedrawCutting): ChangedLength => {
  refuseCutting(pattern);
  refuseNoLength(what.amount);
  const plan = planLength(pattern, what);
  const longerBy = (amount: number): number => (what.direction === 'longer' ? amount : 0 - amount);
  const tryOut = (amount: number): readonly Panel[] | Trouble =>
    attempt(pattern, plan, longerBy(amount), redrawCutting);
  const panels = tryOut(what.amount);
  if (isTrouble(panels)) {
    throw refuseAmount(panels, what.amount, pattern.units, (amount) => !isTrouble(tryOut(amount)));
  }
  if (panels.every((panel, index) => panel === pattern.panels[index])) {
    throw new StaywrightError('usage', `no panel reaches ${plan.between.join(' or ')}`, {
      where: '--between',
      hint: 'choose levels that lie on the panels',
    });
  }
  const changed = { ...pattern, panels };
  const [[, zone]] = [...plan.zones] as [[Panel, StretchZone]];
  const amounts = stretchBetween(zone, longerBy(what.amount));
  return {
    pattern: changed,
    change: {
      between: plan.between,
      longer: longerBy(what.amount),
      up: 0 - amounts.value(zone.high),
      down: amounts.value(zone.low),
      heights: levelHeights(pattern, changed),
      ...shapeChange(pattern, changed),
    },
    findings: [...artFindings(pattern, changed), ...alterationFindings(pattern, changed)],
  };
};
