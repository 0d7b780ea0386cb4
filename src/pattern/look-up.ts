/** Finding panels, edges, seams and levels by their names and places. */

import { StaywrightError } from '../errors.ts';
import { SIDES, type Edge, type Level, type Panel, type Side } from './panel.ts';
import type { Pattern } from './pattern.ts';
import { suggestName } from './suggest.ts';

/** One edge of a seam: which panel it belongs to, and whether it is that panel's edge towards the front or the back. */
export interface SeamEdge {
  readonly panel: Panel;
  readonly edge: Edge;
  readonly side: 'front' | 'back';
}

/** All edges with one name: two that are sewn together, or one on its own (an opening or a fold). */
export interface Seam {
  readonly name: string;
  readonly edges: readonly SeamEdge[];
}

/** The four edges of a labelled panel. */
export interface PanelSides {
  readonly top: Edge;
  readonly back: Edge;
  readonly bottom: Edge;
  readonly front: Edge;
}

/** @throws usage, with the nearest name, where there is no such panel. */
export const panelNamed = (pattern: Pattern, name: string): Panel => {
  const found = pattern.panels.find((panel) => panel.name === name);
  if (found) return found;
  const names = pattern.panels.map((panel) => panel.name);
  throw new StaywrightError('usage', `no panel is called ${name}`, { hint: suggestName(name, names) });
};

/** @throws usage, with the nearest name, where the panel has no such edge. */
export const edgeNamed = (panel: Panel, name: string): Edge => {
  const found = panel.edges.find((edge) => edge.name === name);
  if (found) return found;
  const names = panel.edges.map((edge) => edge.name);
  throw new StaywrightError('usage', `no edge is called ${name}`, {
    where: `panel ${panel.name}`,
    hint: suggestName(name, names),
  });
};

/** The level with that name, or undefined. */
export const findLevel = (panel: Panel, name: string): Level | undefined =>
  panel.levels.find((level) => level.name === name);

/** The four edges of a panel by their places, or undefined where it was never labelled with a top and a bottom. */
export const sidesOf = (panel: Panel): PanelSides | undefined => {
  if (panel.edges.length !== 4) return undefined;
  const at = panel.edges.findIndex((edge) => edge.name === 'top');
  const [top, back, bottom, front] = [0, 1, 2, 3].map((step) => panel.edges[(at + step) % 4]!);
  return at >= 0 && bottom!.name === 'bottom' ? { top: top!, back: back!, bottom: bottom!, front: front! } : undefined;
};

/** The two seam edges of a panel, or the two sides of a gusset; undefined for a panel that was never labelled. */
export const seamSidesOf = (panel: Panel): Pick<PanelSides, 'front' | 'back'> | undefined => {
  if (panel.gusset === undefined) return sidesOf(panel);
  const at = panel.edges.findIndex((edge) => edge.name === 'bottom');
  if (panel.edges.length !== 3 || at < 0) return undefined;
  return { back: panel.edges[(at + 2) % 3]!, front: panel.edges[(at + 1) % 3]! };
};

/** The height of the waist on a panel, also of one that lies above a gusset's apex. */
export const waistOf = (panel: Panel): number | undefined => findLevel(panel, 'waist')?.y ?? panel.gusset?.waistY;

const sidesOrRefuse = (panel: Panel): PanelSides => {
  const sides = sidesOf(panel);
  if (sides) return sides;
  const where = `panel ${panel.name}`;
  if (panel.gusset) {
    const hint = `set it in as it should be: staywright gusset with --name ${panel.name}`;
    throw new StaywrightError('usage', 'is a gusset, which has no top', { where, hint });
  }
  throw new StaywrightError('input', 'has no top, bottom and two seam edges', {
    where,
    hint: 'name its seams and levels with staywright label',
  });
};

/** The seam edge towards the front. @throws input where the panel was never labelled; so do the next three. */
export const frontEdge = (panel: Panel): Edge => sidesOrRefuse(panel).front;

/** The seam edge towards the back. */
export const backEdge = (panel: Panel): Edge => sidesOrRefuse(panel).back;

export const topEdge = (panel: Panel): Edge => sidesOrRefuse(panel).top;

export const bottomEdge = (panel: Panel): Edge => sidesOrRefuse(panel).bottom;

/** All seams, from centre front to centre back; panels that were never labelled have none. */
export const seamsOf = (pattern: Pattern): readonly Seam[] => {
  const seams = new Map<string, SeamEdge[]>();
  const add = (seamEdge: SeamEdge): void => {
    const name = seamEdge.edge.name;
    seams.set(name, [...(seams.get(name) ?? []), seamEdge]);
  };
  for (const panel of pattern.panels) {
    const sides = seamSidesOf(panel);
    if (!sides) continue;
    add({ panel, edge: sides.front, side: 'front' });
    add({ panel, edge: sides.back, side: 'back' });
  }
  return [...seams].map(([name, edges]) => ({ name, edges }));
};

/** The edges that are sewn together under one name, or one edge on its own; `side` where left and right are separate panels. */
export interface SewnSeam extends Seam {
  readonly side?: Side;
}

/** Each seam once for each side of the body: what left and right have in common by name is not sewn together. */
export const sewnSeams = (pattern: Pattern): readonly SewnSeam[] =>
  [undefined, ...SIDES].flatMap((side) =>
    seamsOf({ ...pattern, panels: pattern.panels.filter((panel) => panel.side === side) }).map((seam) =>
      side === undefined ? seam : { ...seam, side },
    ),
  );

/** A seam's name in words, with its side where it has one: `side, left`. */
export const seamWords = ({ name, side }: SewnSeam): string => (side === undefined ? name : `${name}, ${side}`);

/** The side that all panels share; undefined where they are pairs or of both sides. */
export const sideOf = ({ panels }: Pattern): Side | undefined => {
  const [first] = panels;
  return first && panels.every(({ side }) => side === first.side) ? first.side : undefined;
};

/** @throws usage, with the nearest name, where there is no such seam. */
export const seamNamed = (pattern: Pattern, name: string): Seam => {
  const seams = seamsOf(pattern);
  const found = seams.find((seam) => seam.name === name);
  if (found) return found;
  const names = seams.map((seam) => seam.name);
  throw new StaywrightError('usage', `no seam is called ${name}`, { hint: suggestName(name, names) });
};

/** The names of all levels of all panels, from the highest down as they lie about the waist. */
export const levelNames = (pattern: Pattern): readonly string[] => {
  const heights = new Map<string, number>();
  for (const panel of pattern.panels) {
    const waist = waistOf(panel) ?? 0;
    for (const level of panel.levels) {
      if (!heights.has(level.name)) heights.set(level.name, level.y - waist);
    }
  }
  return [...heights].toSorted((a, b) => a[1] - b[1]).map(([name]) => name);
};
