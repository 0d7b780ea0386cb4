/** Comparing in few words, for tests. */

import { translatePath } from '../../src/geometry/transform-path.ts';
import { vector } from '../../src/geometry/vector.ts';
import { comparePatterns } from '../../src/measure/compare-patterns.ts';
import { changeOf, type Comparison, type EdgeComparison } from '../../src/measure/compare/comparison.ts';
import type { Edge, Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';

export const own = (before: Pattern, after: Pattern): Comparison =>
  comparePatterns(before, after, { sharesFrame: true });
export const byWaist = (before: Pattern, after: Pattern): Comparison =>
  comparePatterns(before, after, { sharesFrame: false });

export const edgeOf = (found: Comparison, panel: string, edge: string): EdgeComparison =>
  found.panels.find((one) => one.panel === panel)!.edges.find((one) => one.edge === edge)!;

export const outwards = (edge: EdgeComparison): Record<string, number | undefined> =>
  Object.fromEntries(edge.levels.map(({ level, outwards: by }) => [level, by]));

export const girthChanges = ({ girths }: Comparison): Record<string, number> =>
  Object.fromEntries(girths.map((girth) => [girth.level, changeOf(girth)!]));

/** One edge as it is, or moved as a whole; the outline need not close for it to be compared. */
export const withEdge = (panel: Panel, name: string, change: (edge: Edge) => Edge): Panel => ({
  ...panel,
  edges: panel.edges.map((edge) => (edge.name === name ? change(edge) : edge)),
});

export const shifted = (pattern: Pattern, name: string, dx: number, dy: number): Pattern => ({
  ...pattern,
  panels: pattern.panels.map((panel) =>
    withEdge(panel, name, (edge) => ({ ...edge, path: translatePath(edge.path, vector(dx, dy)) })),
  ),
});
