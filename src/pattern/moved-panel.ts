import { movePoint } from '../geometry/point.ts';
import { translatePath } from '../geometry/transform-path.ts';
import type { Vector } from '../geometry/vector.ts';
import type { Panel } from './panel.ts';

/** The panel lying elsewhere in its plane, with all that is drawn on it; artwork keeps its place. The very same panel where it does not move. */
export const movedPanel = (panel: Panel, by: Vector): Panel => {
  if (by.dx === 0 && by.dy === 0) return panel;
  const { gusset, slits, grain, cutting } = panel;
  return {
    ...panel,
    edges: panel.edges.map(({ text: _text, ...edge }) => ({ ...edge, path: translatePath(edge.path, by) })),
    levels: panel.levels.map((level) => ({
      ...level,
      y: level.y + by.dy,
      fromX: level.fromX + by.dx,
      toX: level.toX + by.dx,
    })),
    notches: panel.notches.map(({ edge, at, inner }) => ({ edge, at: movePoint(at, by), inner: movePoint(inner, by) })),
    bones: panel.bones.map((bone) => translatePath(bone, by)),
    ...(gusset ? { gusset: { waistY: gusset.waistY + by.dy } } : {}),
    ...(slits
      ? { slits: slits.map((slit) => ({ ...slit, at: movePoint(slit.at, by), to: movePoint(slit.to, by) })) }
      : {}),
    ...(grain ? { grain: { from: movePoint(grain.from, by), to: movePoint(grain.to, by) } } : {}),
    ...(cutting ? { cutting: translatePath(cutting, by) } : {}),
  };
};
