import type { Panel } from '../../src/pattern/panel.ts';
import { panelOf, run } from './shaped-panels.ts';

/** Heights above (or below) the waist at the front and the back of a panel. */
export type Heights = number | readonly [front: number, back: number];

const both = (heights: Heights): readonly [number, number] =>
  typeof heights === 'number' ? [heights, heights] : heights;

/** A panel 80 mm wide with upright straight seams, its top and bottom straight between the heights given. */
export const block = (name: string, seams: readonly [string, string], above: Heights, below: Heights): Panel => {
  const [topFront, topBack] = both(above);
  const [bottomFront, bottomBack] = both(below);
  return panelOf({
    name,
    seams,
    top: run([0, -topFront], [80, -topBack]),
    back: run([80, -topBack], [80, bottomBack]),
    bottom: run([80, bottomBack], [0, bottomFront]),
    front: run([0, bottomFront], [0, -topFront]),
    levels: { waist: 0 },
  });
};

/** The block with a notch on one of its seams, so many millimetres above the waist. */
export const notched = (panel: Panel, edge: string, ...above: readonly number[]): Panel => {
  const isBack = panel.edges[1]!.name === edge;
  const [x, inner] = isBack ? [80, 74] : [0, 6];
  return {
    ...panel,
    notches: [...panel.notches, ...above.map((up) => ({ edge, at: { x, y: -up }, inner: { x: inner, y: -up } }))],
  };
};
