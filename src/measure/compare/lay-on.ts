import { pathBox } from '../../geometry/box.ts';
import { pathStart } from '../../geometry/path.ts';
import { vector, type Vector } from '../../geometry/vector.ts';
import { chordAt } from '../../pattern/chord.ts';
import { seamSidesOf, waistOf } from '../../pattern/look-up.ts';
import { outlineOf } from '../../pattern/outline.ts';
import type { Panel } from '../../pattern/panel.ts';

/** Where a panel's middle lies on its waist line: of a gusset its apex, of one that does not cross the waist the middle of its box. */
const middleOf = (panel: Panel, waist: number): number => {
  const sides = panel.gusset && seamSidesOf(panel);
  if (sides) return pathStart(sides.back.path).x;
  const chord = chordAt(panel, waist);
  if (chord) return (chord.fromX + chord.toX) / 2;
  const { minX, maxX } = pathBox(outlineOf(panel));
  return (minX + maxX) / 2;
};

/**
 * By how much a panel is moved to lie on its other version: not at all where both share their coordinates, else waist line on waist line,
 * the middle of the waist on the middle of the waist. Not at all either where one has no waist.
 */
export const layOn = (before: Panel, after: Panel, sharesFrame: boolean): Vector => {
  const [was, is] = [waistOf(before), waistOf(after)];
  if (sharesFrame || was === undefined || is === undefined) return vector(0, 0);
  return vector(middleOf(before, was) - middleOf(after, is), was - is);
};
