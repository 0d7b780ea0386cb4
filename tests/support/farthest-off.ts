import type { Pattern } from '../../src/pattern/pattern.ts';
import { farthestApart } from './shaped-panels.ts';

/** The largest distance between an edge of one pattern and the same edge of the other, panel by panel in their order. */
export const farthestOff = (before: Pattern, after: Pattern): number =>
  Math.max(
    ...before.panels.flatMap((panel, i) =>
      panel.edges.map((edge, j) => farthestApart(edge.path, after.panels[i]!.edges[j]!.path)),
    ),
  );
