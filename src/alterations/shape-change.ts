/** What every alteration tells in figures: girths at the named levels, and the lengths of the edges that changed. */

import { pathLength } from '../geometry/arc-length.ts';
import { chordAt } from '../pattern/chord.ts';
import { timesRound } from '../pattern/girth-at.ts';
import { findLevel, levelNames } from '../pattern/look-up.ts';
import type { Pattern } from '../pattern/pattern.ts';

export interface GirthChange {
  readonly level: string;
  /** Round the body, in millimetres, along the level where it lay. */
  readonly before: number;
  /** Along the level where it lies now. */
  readonly after: number;
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
    const y = findLevel(panel, level)?.y;
    const chord = y === undefined ? undefined : chordAt(panel, y);
    if (!chord) return undefined;
    drawn += chord.width;
  }
  return drawn * timesRound(pattern);
};

/** The girths at every named level before and after. */
export const girthChanges = (before: Pattern, after: Pattern): GirthChange[] =>
  levelNames(after).flatMap((level) => {
    const [was, is] = [girthIfAny(before, level), girthIfAny(after, level)];
    return was === undefined || is === undefined ? [] : [{ level, before: was, after: is }];
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
