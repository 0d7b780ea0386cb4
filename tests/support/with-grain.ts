import { point } from '../../src/geometry/point.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';

/** The pattern with an upright grainline below the waist of every panel. */
export const withGrain = (pattern: Pattern): Pattern => ({
  ...pattern,
  panels: pattern.panels.map((panel) => ({ ...panel, grain: { from: point(0, 20), to: point(0, 110) } })),
});
