/** What a splice tells in figures. */

import { chordAt } from '../../pattern/chord.ts';
import { sidesOf } from '../../pattern/look-up.ts';
import type { Pattern } from '../../pattern/pattern.ts';
import type { PanelPair } from './align-panels.ts';
import { girthChanges, shapeChange, type ShapeChange } from '../shape-change.ts';
import { rulerAt, type Source, type SplicePlan, type SpliceWhere } from './splice-plan.ts';

export interface LevelSource {
  readonly level: string;
  /** Which version rules at the level on all panels, or `mix`. */
  readonly source: Source | 'mix';
  /** Girth of the other version at its own level, where it has that on all panels. */
  readonly other: number | undefined;
}

/** How far apart the two versions of a seam's edge are over the blends: the most that it moves there. */
export interface SeamStep {
  readonly panel: string;
  readonly seam: string;
  /** Millimetres along the level, positive outwards: from this version to the other. */
  readonly outwards: number;
}

export interface SpliceChange extends ShapeChange {
  readonly where: SpliceWhere;
  /** Millimetres; undefined where sizes are blended from level to level. */
  readonly blend: number | undefined;
  /** The usual blend, where one was not asked for and lines that move far made it longer. */
  readonly lengthenedFrom?: number;
  readonly levels: readonly LevelSource[];
  readonly steps: readonly SeamStep[];
}

interface Done {
  readonly pairs: readonly PanelPair[];
  readonly plans: readonly SplicePlan[];
  readonly where: SpliceWhere;
  readonly blend: number;
  readonly lengthenedFrom?: number;
}

const sourceAt = (level: string, { pairs, plans }: Done): Source | 'mix' => {
  const sources = pairs.flatMap(({ mine }, i) => {
    const y = mine.levels.find(({ name }) => name === level)?.y;
    return y === undefined ? [] : [rulerAt(plans[i]!, y)];
  });
  return sources.every((source) => source === sources[0]) ? (sources[0] ?? 'mix') : 'mix';
};

/** At the end of each blend where the other rules, the two chords there say how far the edges are apart; none where a panel has ended. */
export const stepsOf = ({ mine, other }: PanelPair, plan: SplicePlan): SeamStep[] => {
  const sides = sidesOf(mine)!;
  const ends = plan.mixes.map(({ from, to }) => (plan.weight.value(from) === 1 ? from : to));
  const steps = ends.flatMap((y) => {
    const [here, there] = [chordAt(mine, y), chordAt(other, y + plan.lift.value(y))];
    return here && there ? [{ front: here.fromX - there.fromX, back: there.toX - here.toX }] : [];
  });
  return (['front', 'back'] as const).flatMap((side) => {
    const [first, ...more] = steps.map((step) => step[side]);
    if (first === undefined) return [];
    const outwards = more.reduce((most, step) => (Math.abs(step) > Math.abs(most) ? step : most), first);
    return [{ panel: mine.name, seam: sides[side].name, outwards }];
  });
};

export const spliceFigures = (before: Pattern, other: Pattern, after: Pattern, done: Done): SpliceChange => {
  const shape = shapeChange(before, after);
  const theirs = girthChanges(other, other);
  return {
    ...shape,
    where: done.where,
    blend: done.where.kind === 'levels' ? undefined : done.blend,
    ...(done.lengthenedFrom === undefined ? {} : { lengthenedFrom: done.lengthenedFrom }),
    levels: shape.girth.map(({ level }) => ({
      level,
      source: sourceAt(level, done),
      other: theirs.find((row) => row.level === level)?.after,
    })),
    steps: done.pairs.flatMap((pair, i) => stepsOf(pair, done.plans[i]!)),
  };
};
