import type { Path } from '../../geometry/path.ts';
import { reversePath } from '../../geometry/reverse-path.ts';
import { SAME_POINT } from '../../geometry/tolerance.ts';
import { chordAt } from '../../pattern/chord.ts';
import { sidesOf } from '../../pattern/look-up.ts';
import type { Edge, Level, Notch, Panel } from '../../pattern/panel.ts';
import { settleMarks } from '../../pattern/settle-marks.ts';
import type { PanelPair } from './align-panels.ts';
import { heightHere, rulerAt, splicedY, type Source, type SplicePlan } from './splice-plan.ts';
import { isSamePath, spliceSeam } from './splice-seam.ts';

const withPath = (edge: Edge, path: Path): Edge => {
  if (path === edge.path) return edge;
  const { text: _, ...kept } = edge;
  return { ...kept, path };
};

/** The front seam runs up on a panel, but is spliced downwards, as the back seam is. */
const spliceFront = (mine: Path, other: Path, plan: SplicePlan): Path | string => {
  if (isSamePath(mine, other)) return mine;
  const spliced = spliceSeam(reversePath(mine), reversePath(other), plan);
  return typeof spliced === 'string' ? spliced : reversePath(spliced);
};

/** A top or bottom edge lies wholly on one side of the blend. */
const wholeEdge = (mine: Edge, other: Edge, source: Source): Edge =>
  source === 'this' || isSamePath(mine.path, other.path) ? mine : withPath(mine, other.path);

/** The edges of both in one order: those of the panel spliced, or why a seam cannot be. */
const spliceEdges = ({ mine, other }: PanelPair, plan: SplicePlan): Edge[] | string => {
  const sides = sidesOf(mine)!;
  const edges: Edge[] = [];
  for (const [index, edge] of mine.edges.entries()) {
    const theirs = other.edges[index]!;
    if (edge === sides.top || edge === sides.bottom) {
      edges.push(wholeEdge(edge, theirs, edge === sides.top ? plan.first : plan.last));
      continue;
    }
    const path = (edge === sides.front ? spliceFront : spliceSeam)(edge.path, theirs.path, plan);
    if (typeof path === 'string') return `has a seam ${edge.name} that ${path}`;
    edges.push(withPath(edge, path));
  }
  return edges;
};

const byHeight = (notches: readonly Notch[], edge: string): Notch[] =>
  notches.filter((notch) => notch.edge === edge).toSorted((a, b) => a.at.y - b.at.y);

/** Notches of one edge that stay, from each version. */
interface Kept {
  readonly mine: readonly Notch[];
  readonly other: readonly Notch[];
}

/** On a seam: where both versions have as many, each has its twin and one of the two stays; else by their place. */
const seamNotches = ({ mine, other }: Kept, plan: SplicePlan): Kept => {
  const isOthers = (y: number): boolean => rulerAt(plan, y) === 'other';
  const twins = mine.length === other.length;
  return {
    mine: mine.filter(({ at }) => !isOthers(at.y)),
    other: other.filter(({ at }, i) => isOthers(twins ? mine[i]!.at.y : heightHere(plan, at.y))),
  };
};

/** Notches come from the version that rules where they lie, in a blend from this one; on a seam they keep their distance from the waist. */
const spliceNotches = ({ mine, other }: PanelPair, spliced: Panel, plan: SplicePlan): Notch[] => {
  const { top, bottom } = sidesOf(mine)!;
  const kept = mine.edges.map((edge, index): Kept => {
    const both = { mine: byHeight(mine.notches, edge.name), other: byHeight(other.notches, edge.name) };
    const whole = edge === top ? plan.first : edge === bottom ? plan.last : undefined;
    if (spliced.edges[index] === edge || whole === 'this') return { mine: both.mine, other: [] };
    return whole === 'other' ? { mine: [], other: both.other } : seamNotches(both, plan);
  });
  return (['mine', 'other'] as const).flatMap((version) => {
    const from = { mine, other }[version];
    const stay = new Set(kept.flatMap((each) => each[version]));
    const notches = from.notches.filter((notch) => stay.has(notch));
    return settleMarks({ ...from, notches }, { ...spliced, notches }).notches;
  });
};

const spliceLevel = (level: Level, panel: Panel, plan: SplicePlan): Level => {
  const y = splicedY(plan, level.y);
  if (Math.abs(y - level.y) < SAME_POINT) return level;
  const chord = chordAt(panel, y);
  return { ...level, y, ...(chord && { fromX: chord.fromX, toX: chord.toX }) };
};

const inOrder = (levels: readonly Level[]): string | undefined => {
  const at = levels.findIndex(({ y }, i) => i > 0 && y - levels[i - 1]!.y < SAME_POINT);
  return at < 0 ? undefined : `would have its levels ${levels[at - 1]!.name} and ${levels[at]!.name} in one place`;
};

/**
 * A panel with parts of its other version's outline, as planned: outside the blends each edge is one of the two to the point. Levels are
 * this panel's, at the height of the version that rules there; notches are those of the version that rules, settled; grainline, bones,
 * allowance and artwork are this panel's. The very same panel where the two do not differ; instead of one, the reason in words that
 * follow its name.
 */
export const splicePanel = (pair: PanelPair, plan: SplicePlan): Panel | string => {
  const edges = spliceEdges(pair, plan);
  if (typeof edges === 'string') return edges;
  if (edges.every((edge, index) => edge === pair.mine.edges[index])) return pair.mine;
  const bare = { ...pair.mine, edges };
  const levels = bare.levels.map((level) => spliceLevel(level, bare, plan));
  const trouble = inOrder(levels);
  if (trouble !== undefined) return trouble;
  const spliced = { ...bare, levels };
  return { ...spliced, notches: spliceNotches(pair, spliced, plan) };
};
