import { levelCalled, timesRound } from '../pattern/girth-at.ts';
import { levelNames, sideOf } from '../pattern/look-up.ts';
import { movedPanel } from '../pattern/moved-panel.ts';
import type { Panel } from '../pattern/panel.ts';
import type { Pattern } from '../pattern/pattern.ts';
import { widthAt } from '../pattern/width-at.ts';
import { compareEdges } from './compare/compare-edges.ts';
import {
  bonesApart,
  compareCorners,
  compareGrain,
  compareLevels,
  compareNotches,
  compareSlits,
  type PanelVersions,
} from './compare/compare-marks.ts';
import { compareSeams } from './compare/compare-seams.ts';
import {
  isChanged,
  SAME_ANGLE,
  UNCHANGED,
  type Comparison,
  type GirthComparison,
  type PanelComparison,
} from './compare/comparison.ts';
import { layOn } from './compare/lay-on.ts';
import { refuseUnlike, type VersionNames } from './compare/refuse-unlike.ts';

export interface CompareOptions {
  /** Both are versions of one labelled pattern, whose panels never left their own coordinates. */
  readonly sharesFrame: boolean;
  /** What messages call the two. */
  readonly names?: VersionNames;
}

const girthIfAny = (pattern: Pattern, level: string): number | undefined => {
  const widths = pattern.panels.map((panel) => widthAt(pattern, panel, levelCalled(level)));
  if (widths.includes(undefined)) return undefined;
  return widths.reduce<number>((sum, width) => sum + width!, 0) * timesRound(pattern);
};

/** The levels of both, from the highest down as they lie on the after one; those that only the before one has come last. */
const allLevels = (before: Pattern, after: Pattern): string[] => [
  ...new Set([...levelNames(after), ...levelNames(before)]),
];

const compareGirths = (before: Pattern, after: Pattern, levels: readonly string[]): GirthComparison[] =>
  levels
    .map((level) => ({ level, before: girthIfAny(before, level), after: girthIfAny(after, level) }))
    .filter((girth) => girth.before !== undefined || girth.after !== undefined);

/** The panels that the other pattern lacks. */
const onlyIn = (one: Pattern, other: Pattern): string[] =>
  one.panels.map(({ name }) => name).filter((name) => other.panels.every((panel) => panel.name !== name));

const comparePanel = (
  before: Pattern,
  after: Pattern,
  was: Panel,
  is: Panel,
  sharesFrame: boolean,
  levels: readonly string[],
): PanelComparison => {
  const laid = layOn(was, is, sharesFrame);
  const versions: PanelVersions = {
    before: { pattern: before, panel: was },
    after: { pattern: after, panel: is, laid: movedPanel(is, laid) },
  };
  return {
    panel: is.name,
    ...(is.side === undefined ? {} : { side: is.side }),
    laid,
    edges: compareEdges(was, versions.after.laid, levels),
    levels: compareLevels(versions, levels),
    corners: compareCorners(versions),
    notches: compareNotches(versions),
    grain: compareGrain(versions),
    bones: { before: was.bones.length, after: is.bones.length },
    bonesApart: bonesApart(versions),
    slits: compareSlits(versions),
  };
};

/** Whether a grainline turned, or is drawn in one version only. */
export const isTurned = ({ grain: { before, after } }: PanelComparison): boolean =>
  before === undefined || after === undefined ? before !== after : Math.abs(after - before) >= SAME_ANGLE;

const panelDiffers = (panel: PanelComparison): boolean =>
  panel.edges.some(
    ({ kind, allowance, corners }) =>
      kind === 'ends' || kind === 'moved' || isChanged(allowance) || corners.before !== corners.after,
  ) ||
  panel.levels.some(({ height }) => isChanged(height)) ||
  panel.notches.some(isChanged) ||
  isTurned(panel) ||
  isChanged(panel.bones) ||
  panel.bonesApart > UNCHANGED ||
  panel.slits.some(({ height, length, apart }) => isChanged(height) || isChanged(length) || apart > UNCHANGED);

/**
 * What moved between two versions or sizes of one pattern, where and by how much. Panels are matched by name and laid on each other: in
 * their own coordinates where they share them, else by their waists. Lengths are in millimetres: distances between lines are at most
 * 0.005 mm too small, all others exact to 0.001 mm; angles in radians. Comparing the other way round turns every sign.
 *
 * @throws input where the two have other panels or seams, show other lines, or cannot be laid on each other.
 */
export const comparePatterns = (before: Pattern, after: Pattern, options: CompareOptions): Comparison => {
  const { sharesFrame, names = { before: 'the first', after: 'the second' } } = options;
  refuseUnlike(before, after, sharesFrame, names);
  const levels = allLevels(before, after);
  const old = new Map(before.panels.map((panel) => [panel.name, panel]));
  const panels = after.panels.flatMap((panel) => {
    const was = old.get(panel.name);
    return was === undefined ? [] : [comparePanel(before, after, was, panel, sharesFrame, levels)];
  });
  const gussets = { onlyBefore: onlyIn(before, after), onlyAfter: onlyIn(after, before) };
  const half = sideOf(after);
  return {
    sharesFrame,
    line: after.panels[0]?.line ?? 'stitching',
    panels,
    gussets,
    seams: compareSeams(before, after),
    girths: compareGirths(before, after, levels),
    ...(half === undefined ? {} : { half }),
    differs: panels.some(panelDiffers) || gussets.onlyBefore.length > 0 || gussets.onlyAfter.length > 0,
  };
};
