/** Setting in a gusset: a seam or a slit is opened from a point down, and a new panel fills the opening. */

import { selfCrossings } from '../geometry/intersect.ts';
import { StaywrightError } from '../errors.ts';
import type { Finding } from '../pattern/finding.ts';
import { formatLength } from '../pattern/format-length.ts';
import { changedGussetFindings } from '../pattern/gusset-findings.ts';
import { levelCalled, timesRound } from '../pattern/girth-at.ts';
import { waistOf } from '../pattern/look-up.ts';
import { outlineOf } from '../pattern/outline.ts';
import type { Panel, Side } from '../pattern/panel.ts';
import type { Pattern } from '../pattern/pattern.ts';
import { refuseCutting } from '../pattern/refuse-cutting.ts';
import { widthAt } from '../pattern/width-at.ts';
import type { RedrawCutting } from './alter-panels.ts';
import { gussetSpots, type GussetSpot, type Opening } from './gusset/gusset-openings.ts';
import { checkGussetName, gussetName, panelName, replacedNames, withoutSide } from './gusset/gusset-names.ts';
import type { GussetWanted } from './gusset-options.ts';
import { gussetPanel, halfWay, notchAt, notchesBelow } from './gusset/gusset-panel.ts';
import { gussetShape, sideChord, type GussetMeasures } from './gusset/gusset-shape.ts';
import { largestAmount } from './largest-amount.ts';
import { girthChanges, halfOf, type GirthChange } from './shape-change.ts';

/** Where one panel is opened. */
interface Reinforced {
  readonly panel: string;
  /** Absent for a slit. */
  readonly edge?: string;
  /** Millimetres below the waist; negative above it. Undefined where the panel has no waist. */
  readonly belowWaist?: number;
  readonly length: number;
}

/** One gusset that was set in. */
export interface SetGusset {
  readonly name: string;
  readonly side?: Side;
  readonly front: number;
  readonly back: number;
  readonly width: number;
  /** Between the two sides at the apex, in radians. */
  readonly apexAngle: number;
  readonly points: readonly Reinforced[];
  /** Whether one of the same name was taken out first. */
  readonly replaced: boolean;
}

export interface GussetChange {
  readonly gussets: readonly SetGusset[];
  /** At the named levels from the highest down, then at each panel's own bottom. */
  readonly girth: readonly GirthChange[];
  readonly timesRound: 1 | 2;
}

interface GussetsSet {
  readonly pattern: Pattern;
  readonly change: GussetChange;
  readonly findings: readonly Finding[];
}

/** A narrower base leaves no cloth between the seams at its sides. Our choice. */
const NARROWEST = 5;

/** The pattern without a gusset and its openings; notches stay. */
const takenOut = (pattern: Pattern, name: string): Pattern => ({
  ...pattern,
  panels: pattern.panels
    .filter((panel) => panel.name !== name || panel.gusset === undefined)
    .map((panel): Panel => {
      if (!panel.slits?.some((slit) => slit.gusset === name)) return panel;
      const { slits, ...kept } = panel;
      const left = slits.filter((slit) => slit.gusset !== name);
      return left.length === 0 ? kept : { ...kept, slits: left };
    }),
});

const measuresOf = ({ front, back }: GussetSpot, { width, sides }: GussetWanted): GussetMeasures => ({
  front: front.length,
  back: back.length,
  width,
  sides,
});

const refuseShape = (pattern: Pattern, measures: GussetMeasures): StaywrightError => {
  const { front, back, width, sides } = measures;
  const show = (mm: number): string => formatLength(mm, pattern.units);
  const apart = Math.abs(sideChord(front, sides) - sideChord(back, sides));
  if (width <= apart) {
    return new StaywrightError(
      'impossible',
      `${show(width)} does not bridge two openings that differ by ${show(apart)}`,
      {
        where: '--width',
        hint: 'give a larger width, or make the two edges of the seam alike first',
      },
    );
  }
  const most = largestAmount(width, pattern.units, (tried) => gussetShape({ ...measures, width: tried }) !== undefined);
  return new StaywrightError('impossible', `${show(width)} is wider than the two sides together`, {
    where: '--width',
    hint: most ? `the largest width that closes is ${most.text}` : 'no width closes there',
  });
};

/** A panel with its opening marked, and a notch half-way down an opened edge that has none there. */
const opened = (panel: Panel, openings: readonly Opening[], gusset: string): Panel => {
  const own = openings.filter((opening) => opening.panel.name === panel.name);
  if (own.length === 0) return panel;
  const notches = own.flatMap((opening) => {
    const edge = panel.edges.find(({ name }) => name === opening.slit.edge);
    return edge && notchesBelow(opening).length === 0 ? [notchAt(edge, opening.path, halfWay(opening.path))] : [];
  });
  return {
    ...panel,
    notches: notches.length === 0 ? panel.notches : [...panel.notches, ...notches],
    slits: [...(panel.slits ?? []), ...own.map(({ slit }) => ({ gusset, ...slit }))],
  };
};

const reinforced = ({ panel, slit, length }: Opening): Reinforced => {
  const waist = waistOf(panel);
  return {
    panel: panel.name,
    ...(slit.edge === undefined ? {} : { edge: slit.edge }),
    ...(waist === undefined ? {} : { belowWaist: slit.at.y - waist }),
    length,
  };
};

/** Among the panels: after the one in front and the gussets that stand after it. */
const placeOf = ({ panels }: Pattern, { front }: GussetSpot): number => {
  const after = panels.findIndex(({ name }) => name === front.panel.name) + 1;
  const gussets = panels.slice(after).findIndex(({ gusset }) => gusset === undefined);
  return gussets < 0 ? panels.length : after + gussets;
};

const setIn = (
  pattern: Pattern,
  spot: GussetSpot,
  wanted: GussetWanted,
  names: { readonly name: string; readonly edges: string },
  redrawCutting: RedrawCutting | undefined,
): { readonly pattern: Pattern; readonly set: Omit<SetGusset, 'replaced'> } => {
  const measures = measuresOf(spot, wanted);
  const shape = gussetShape(measures);
  if (!shape) throw refuseShape(pattern, measures);
  const net = gussetPanel(pattern, spot, shape, names);
  if (selfCrossings(outlineOf(net)).length > 0) {
    throw new StaywrightError('impossible', 'would cross itself', {
      where: `panel ${net.name}`,
      hint: 'try another width',
    });
  }
  const cut = [spot.front, spot.back].some(({ panel }) => panel.cutting !== undefined);
  const gusset = cut && redrawCutting ? redrawCutting(net) : net;
  const openings = spot.front === spot.back ? [spot.front] : [spot.front, spot.back];
  const panels = pattern.panels.map((panel) => opened(panel, openings, names.name));
  panels.splice(placeOf(pattern, spot), 0, gusset);
  const { front, back, width } = measures;
  const side = spot.side === undefined ? {} : { side: spot.side };
  const points = openings.map(reinforced);
  return {
    pattern: { ...pattern, panels },
    set: { name: names.name, ...side, front, back, width, apexAngle: shape.apexAngle, points },
  };
};

/** Round the body at the bottom of every panel. */
const bottomGirth = (pattern: Pattern): number | undefined => {
  const widths = pattern.panels.map((panel) => widthAt(pattern, panel, levelCalled('bottom')));
  if (widths.some((width) => width === undefined)) return undefined;
  return widths.reduce<number>((sum, width) => sum + width!, 0) * timesRound(pattern);
};

/** That girth before and after, where all panels have a bottom. */
const bottomChange = (before: Pattern, after: Pattern): GirthChange[] => {
  const [was, is] = [bottomGirth(before), bottomGirth(after)];
  return was === undefined || is === undefined ? [] : [{ level: 'bottom', before: was, after: is, ...halfOf(after) }];
};

/**
 * Sets a gusset into a seam or a slit: a panel with its apex on top, whose sides are as long as the openings, to 0.01 mm, and whose
 * lower corners lie `width` apart. The outlines of the other panels stay as they are, to the character: an opening is a mark on them.
 * Where left and right are separate panels, a seam of both gets a gusset on each side. A gusset of the same name is taken out first.
 *
 * @throws usage and impossible as `gussetSpots`, and usage for a width that is nothing or a name that is taken; input for panels
 * that still carry allowance; impossible, with the largest width, where sides and width close to no triangle.
 */
export const setGusset = (pattern: Pattern, wanted: GussetWanted, redrawCutting?: RedrawCutting): GussetsSet => {
  refuseCutting(pattern);
  if (!(wanted.width > 0)) {
    const hint = 'give the width of its base, such as 2in';
    throw new StaywrightError('usage', 'must be more than nothing', { where: '--width', hint });
  }
  if (wanted.width < NARROWEST) {
    const [is, least] = [wanted.width, NARROWEST].map((mm) => formatLength(mm, pattern.units));
    throw new StaywrightError('impossible', `${is} is too narrow to sew`, {
      where: '--width',
      hint: `it must be ${least} or more; staywright let-out gives less`,
    });
  }
  const base = gussetName(pattern, wanted);
  const replaced = wanted.name === undefined ? [] : replacedNames(pattern, base, wanted);
  const cleared = replaced.reduce(takenOut, pattern);
  let after = cleared;
  const gussets = gussetSpots(cleared, wanted.place).map((spot): SetGusset => {
    const name = panelName(base, spot.side, wanted);
    const edges = withoutSide(name, spot.side);
    checkGussetName(after, name, edges);
    const done = setIn(after, spot, wanted, { name, edges }, redrawCutting);
    after = done.pattern;
    return { ...done.set, replaced: replaced.includes(name) };
  });
  const girth = [...girthChanges(pattern, after), ...bottomChange(pattern, after)];
  return {
    pattern: after,
    change: { gussets, girth, timesRound: timesRound(after) },
    findings: changedGussetFindings(pattern, after),
  };
};
