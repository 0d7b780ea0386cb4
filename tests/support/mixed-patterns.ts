/** Patterns of several panels of unlike shapes, with a notch on every edge. */

import type { Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { allShapes, mirrored, patternOf, withNotches } from './shaped-panels.ts';

const renamed = (panel: Panel, front: string, back: string): Panel => {
  const names = ['top', back, 'bottom', front];
  return { ...panel, edges: panel.edges.map((edge, at) => ({ ...edge, name: names[at]! })) };
};

/** One panel of every shape: seams cf, seam-1 to seam-4, cb; `flip` shows every panel from its other side. */
/** As if never written to a sheet: an edge's text is only that of its path where it was read from one. */
const unwritten = (panel: Panel): Panel => ({
  ...panel,
  edges: panel.edges.map(({ text: _text, ...edge }) => edge),
});

export const allShapesPattern = (flip = false): Pattern =>
  patternOf(
    ...allShapes.map((shape, at) => {
      const front = at === 0 ? 'cf' : `seam-${at}`;
      const back = at === allShapes.length - 1 ? 'cb' : `seam-${at + 1}`;
      return unwritten(withNotches(renamed(flip ? mirrored(shape()) : shape(), front, back)));
    }),
  );

/** A pattern of drawn shapes, so that it can be written: with a notch on every edge and no text of its own. */
export const notched = (pattern: Pattern): Pattern => ({
  ...pattern,
  panels: pattern.panels.map((panel) => unwritten(withNotches(panel))),
});

/** Two panels sewn together at the side, of one shape and another. */
export const pairOfShapes = (front: Panel, back: Panel): Pattern => {
  const panels = [renamed(front, 'cf', 'side'), renamed(back, 'side', 'cb')];
  const names = ['front', 'back'];
  return notched(patternOf(...panels.map((panel, at) => ({ ...panel, name: names[at]! }))));
};
