/** Two versions of one pattern laid over each other, panel by panel. */

import { SAME_POINT } from '../../geometry/tolerance.ts';
import { vector, type Vector } from '../../geometry/vector.ts';
import { StaywrightError } from '../../errors.ts';
import { chordAt } from '../../pattern/chord.ts';
import { findLevel, sidesOf } from '../../pattern/look-up.ts';
import { movedPanel } from '../../pattern/moved-panel.ts';
import type { Panel } from '../../pattern/panel.ts';
import type { Pattern } from '../../pattern/pattern.ts';

/** A panel of this pattern with the other version's, already moved onto it: same frame, waist on waist, grain on grain. */
export interface PanelPair {
  readonly mine: Panel;
  readonly other: Panel;
}

const waistOf = (panel: Panel, where: string): number => {
  const waist = findLevel(panel, 'waist');
  if (waist) return waist.y;
  throw new StaywrightError('input', 'has no waist to match it by', { where, hint: 'name it with staywright label' });
};

const middleX = (panel: Panel, waist: number): number => {
  const chord = chordAt(panel, waist);
  const level = findLevel(panel, 'waist')!;
  return chord ? (chord.fromX + chord.toX) / 2 : (level.fromX + level.toX) / 2;
};

const grainX = ({ grain }: Panel): number | undefined => grain && (grain.from.x + grain.to.x) / 2;

/** How the other panel must move: its waist to the waist; its grainline to the grainline, or where one has none, middle to middle. */
const moveOnto = (mine: Panel, other: Panel, name: string): Vector => {
  const [here, there] = [waistOf(mine, `panel ${mine.name}`), waistOf(other, `${name}, panel ${other.name}`)];
  const [grainHere, grainThere] = [grainX(mine), grainX(other)];
  const dx =
    grainHere === undefined || grainThere === undefined
      ? middleX(mine, here) - middleX(other, there)
      : grainHere - grainThere;
  const [sideways, up] = [dx, here - there].map((by) => (Math.abs(by) < SAME_POINT ? 0 : by));
  return vector(sideways!, up!);
};

const refuseOthers = (what: string, mine: readonly string[], theirs: readonly string[], name: string): void => {
  const missing = mine.filter((each) => !theirs.includes(each));
  const more = theirs.filter((each) => !mine.includes(each));
  if (missing.length === 0 && more.length === 0) return;
  const words = [
    ...(missing.length > 0 ? [`lacks ${what} ${missing.join(', ')}`] : []),
    ...(more.length > 0 ? [`has ${what} ${more.join(', ')} that this one lacks`] : []),
  ];
  throw new StaywrightError('input', words.join(', and '), {
    where: name,
    hint: 'only versions of one pattern can be spliced: the same panels with the same seams',
  });
};

const refuseGusset = ({ panels }: Pattern, place: string): void => {
  const gusset = panels.find((panel) => panel.gusset !== undefined);
  if (!gusset) return;
  throw new StaywrightError('input', 'is a gusset, made for the seams as they are', {
    where: `${place}panel ${gusset.name}`,
    hint: 'splice before gussets are set in',
  });
};

const refuseOtherSeams = (mine: Panel, other: Panel, name: string): void => {
  const [here, there] = [sidesOf(mine), sidesOf(other)];
  if (!here || !there) {
    throw new StaywrightError('input', 'has no top, bottom and two seam edges', {
      where: here ? `${name}, panel ${other.name}` : `panel ${mine.name}`,
      hint: 'name its seams and levels with staywright label',
    });
  }
  for (const side of ['front', 'back'] as const) {
    if (here[side].name === there[side].name) continue;
    throw new StaywrightError('input', `its ${side} seam is ${there[side].name}, not ${here[side].name}`, {
      where: `${name}, panel ${other.name}`,
      hint: 'only versions of one pattern can be spliced: the same panels with the same seams',
    });
  }
};

/**
 * The panels of a pattern, in order, each with the panel of that name of the other version, moved (never turned) so that the waists
 * meet and the grainlines lie in one line; where one has no grainline, the middles of the two waists meet. The edges of both come in
 * one order. `name` is what messages call the other.
 *
 * @throws input where the two are not versions of one pattern, or a panel has no waist.
 */
export const alignPanels = (pattern: Pattern, other: Pattern, name: string): PanelPair[] => {
  if (pattern.pieces !== other.pieces) {
    throw new StaywrightError('input', `is drawn as ${other.pieces}, this one as ${pattern.pieces}`, {
      where: name,
      hint: 'split the sides of both, or of neither',
    });
  }
  refuseGusset(pattern, '');
  refuseGusset(other, `${name}, `);
  refuseOthers(
    'panel',
    pattern.panels.map((panel) => panel.name),
    other.panels.map((panel) => panel.name),
    name,
  );
  return pattern.panels.map((mine) => {
    const theirs = other.panels.find((panel) => panel.name === mine.name)!;
    refuseOtherSeams(mine, theirs, name);
    const moved = movedPanel(theirs, moveOnto(mine, theirs, name));
    const edges = mine.edges.map((edge) => moved.edges.find((each) => each.name === edge.name)!);
    return { mine, other: { ...moved, edges } };
  });
};
