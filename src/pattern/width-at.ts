import { pathEnd, pathStart } from '../geometry/path.ts';
import { distance } from '../geometry/point.ts';
import { STUB } from '../geometry/tolerance.ts';
import { chordAt } from './chord.ts';
import type { LevelRef } from './level-ref.ts';
import { levelYIfAny } from './level-y.ts';
import { findLevel, waistOf } from './look-up.ts';
import type { Panel } from './panel.ts';
import type { Pattern } from './pattern.ts';

/** The panels that a gusset is set into. */
export const hostsOf = (pattern: Pattern, gusset: Panel): readonly Panel[] =>
  pattern.panels.filter(({ slits = [] }) => slits.some((slit) => slit.gusset === gusset.name));

/** How far a level lies below the reinforcement points of a gusset, at their mean; undefined where a panel beside it lacks the level. */
const belowPoints = (pattern: Pattern, gusset: Panel, ref: LevelRef): number | undefined => {
  const heights = hostsOf(pattern, gusset).flatMap((host) => {
    const y = levelYIfAny(host, ref);
    return host
      .slits!.filter((slit) => slit.gusset === gusset.name)
      .map(({ at }) => (y === undefined ? undefined : y - at.y));
  });
  if (heights.length === 0 || heights.includes(undefined)) return undefined;
  return heights.reduce<number>((sum, height) => sum + height!, 0) / heights.length;
};

/**
 * A level that a gusset does not bear, as high above or below the waist as on a panel that the gusset is set into. None above the
 * reinforcement points, though a curved seam runs down to the waist a little longer than it is high, and the gusset with it.
 */
const heightOnGusset = (pattern: Pattern, panel: Panel, waistY: number, ref: LevelRef): number | undefined => {
  const bears = ref.offset === 0 && findLevel(panel, ref.name) !== undefined;
  if (!bears && (belowPoints(pattern, panel, ref) ?? 1) <= STUB) return undefined;
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
