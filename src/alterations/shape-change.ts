/** What every alteration tells in figures: girths at the named levels, and the lengths of the edges that changed. */

import { pathLength } from '../geometry/arc-length.ts';
import { levelCalled, timesRound } from '../pattern/girth-at.ts';
import { levelNames, sideOf } from '../pattern/look-up.ts';
import type { Side } from '../pattern/panel.ts';
import type { Pattern } from '../pattern/pattern.ts';
import { widthAt } from '../pattern/width-at.ts';

export interface GirthChange {
  readonly level: string;
  /** Round the body, in millimetres, along the level where it lay. */
  readonly before: number;
  /** Along the level where it lies now. */
  readonly after: number;
  /** Where only the panels of one side were looked at: both lengths are of that half. */
  readonly side?: Side;
}

/** An edge that changed, with its lengths. */
export interface EdgeChange {
  readonly panel: string;
  readonly edge: string;
  readonly before: number;
  readonly after: number;
}

export interface ShapeChange {
  /** At each named level that all panels reach, from the highest down. */
  readonly girth: readonly GirthChange[];
  readonly edges: readonly EdgeChange[];
}

const girthIfAny = (pattern: Pattern, level: string): number | undefined => {
  let drawn = 0;
  for (const panel of pattern.panels) {
    const width = widthAt(pattern, panel, levelCalled(level));
    if (width === undefined) return undefined;
    drawn += width;
  }
  return drawn * timesRound(pattern);
};

/** For a row of figures: the side whose half it is of, where all panels are of one. */
export const halfOf = (pattern: Pattern): { readonly side?: Side } => {
  const side = sideOf(pattern);
  return side === undefined ? {} : { side };
};

/** The girths at every named level before and after. */
export const girthChanges = (before: Pattern, after: Pattern): GirthChange[] =>
  levelNames(after).flatMap((level) => {
    const [was, is] = [girthIfAny(before, level), girthIfAny(after, level)];
    return was === undefined || is === undefined ? [] : [{ level, before: was, after: is, ...halfOf(after) }];
  });

/** The edges of panels that both patterns have and whose paths differ. */
export const edgeChanges = (before: Pattern, after: Pattern): EdgeChange[] =>
  after.panels.flatMap((panel) => {
    const old = before.panels.find(({ name }) => name === panel.name);
    return panel.edges.flatMap((edge) => {
      const was = old?.edges.find(({ name }) => name === edge.name);
      if (was === undefined || was.path === edge.path) return [];
      return [{ panel: panel.name, edge: edge.name, before: pathLength(was.path), after: pathLength(edge.path) }];
    });
  });

export const shapeChange = (before: Pattern, after: Pattern): ShapeChange => ({
  girth: girthChanges(before, after),
  edges: edgeChanges(before, after),
});
