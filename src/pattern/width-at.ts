import { pathEnd, pathStart } from '../geometry/path.ts';
import { distance } from '../geometry/point.ts';
import { chordAt } from './chord.ts';
import type { LevelRef } from './level-ref.ts';
import { levelYIfAny } from './level-y.ts';
import { waistOf } from './look-up.ts';
import type { Panel } from './panel.ts';
import type { Pattern } from './pattern.ts';

/** The panels that a gusset is set into. */
export const hostsOf = (pattern: Pattern, gusset: Panel): readonly Panel[] =>
  pattern.panels.filter(({ slits = [] }) => slits.some((slit) => slit.gusset === gusset.name));

/** A level that a gusset does not bear, as high above or below the waist as on a panel that the gusset is set into. */
const heightOnGusset = (pattern: Pattern, panel: Panel, waistY: number, ref: LevelRef): number | undefined => {
  const own = ref.name === 'top' ? undefined : levelYIfAny(panel, ref);
  if (own !== undefined) return own;
  const [host] = hostsOf(pattern, panel);
  const [y, waist] = [host && levelYIfAny(host, ref), host && waistOf(host)];
  return y === undefined || waist === undefined ? undefined : waistY + y - waist;
};

/** A gusset's base from corner to corner: level where its sides are equal. */
const baseOf = (gusset: Panel): number => {
  const base = gusset.edges.find(({ name }) => name === 'bottom');
  return base ? distance(pathStart(base.path), pathEnd(base.path)) : 0;
};

/**
 * The width of a panel along a level, between its stitching edges, in millimetres. A gusset is 0 wide at a level above its apex, or below
 * its bottom, and at `bottom` as wide as its base; any other panel has no width, undefined, at a level that it does not have or its seams do not reach.
 */
export const widthAt = (pattern: Pattern, panel: Panel, ref: LevelRef): number | undefined => {
  if (panel.gusset === undefined) {
    const y = levelYIfAny(panel, ref);
    return y === undefined ? undefined : chordAt(panel, y)?.width;
  }
  if (ref.name === 'bottom' && ref.offset === 0) return baseOf(panel);
  const y = heightOnGusset(pattern, panel, panel.gusset.waistY, ref);
  return (y === undefined ? undefined : chordAt(panel, y)?.width) ?? 0;
};
