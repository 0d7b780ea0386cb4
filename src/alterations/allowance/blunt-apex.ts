import { crossHorizontal } from '../../geometry/intersect.ts';
import { pathEnd, type Path } from '../../geometry/path.ts';
import { line } from '../../geometry/segment.ts';
import { SAME_POINT } from '../../geometry/tolerance.ts';
import { trimEnd, trimStart } from '../../geometry/trim-path.ts';
import type { Panel } from '../../pattern/panel.ts';

/**
 * The parallels of a gusset's edges with the tip of the allowance cut off, level, at its own width above the apex: mitred it would be
 * several times as long as wide, and in the way of the point that is reinforced. Those of any other panel as they are.
 */
export const bluntApex = (panel: Panel, parallels: readonly Path[]): readonly Path[] => {
  const bottom = panel.edges.findIndex(({ name }) => name === 'bottom');
  if (panel.gusset === undefined || panel.edges.length !== 3 || bottom < 0) return parallels;
  const [front, back] = [(bottom + 1) % 3, (bottom + 2) % 3];
  const width = Math.max(...[front, back].map((at) => panel.edges[at]!.allowance ?? 0));
  const y = pathEnd(panel.edges[front]!.path).y - width;
  if (pathEnd(parallels[front]!).y >= y - SAME_POINT) return parallels;
  const left = crossHorizontal(parallels[front]!, y).at(-1);
  const right = crossHorizontal(parallels[back]!, y)[0];
  if (!left || !right) return parallels;
  const upTo = trimEnd(parallels[front]!, left.location, left.point);
  const blunt = [...parallels];
  blunt[front] = { segments: [...upTo.segments, line(left.point, right.point)] };
  blunt[back] = trimStart(parallels[back]!, right.location, right.point);
  return blunt;
};
