import { StaywrightError } from '../errors.ts';
import type { Finding } from '../pattern/finding.ts';
import { SIDES, type Panel, type Side } from '../pattern/panel.ts';
import type { Pattern } from '../pattern/pattern.ts';
import { girthChanges, type GirthChange } from './shape-change.ts';

export interface SplitSides {
  readonly pattern: Pattern;
  readonly change: {
    /** Each panel of the half pattern, and the two that it became. */
    readonly panels: readonly { readonly pair: string; readonly left: string; readonly right: string }[];
    readonly girth: readonly GirthChange[];
  };
  readonly findings: readonly Finding[];
}

const nameOn = (name: string, side: Side): string => `${name}-${side}`;

/** Artwork lies as the panel is drawn, so that of the right is mirrored with it. */
const mirroredArt = (art: string): string => `<g transform="scale(-1,1)">${art.replaceAll('\n', '')}</g>`;

/** The left panel is the pair's as it was drawn, to the character; the right one is its mirror image. */
const onSide = (panel: Panel, side: Side): Panel => {
  const slits = panel.slits?.map((slit) => ({ ...slit, gusset: nameOn(slit.gusset, side) }));
  const own = { ...panel, name: nameOn(panel.name, side), side, ...(slits ? { slits } : {}) };
  if (side === 'left') return own;
  return {
    ...own,
    edges: panel.edges.map(({ text: _text, ...edge }) => edge),
    ...(panel.art === undefined ? {} : { art: mirroredArt(panel.art) }),
  };
};

/**
 * Makes each panel of a half pattern two, one for the wearer's left and one, mirrored exactly, for the right, so that they can be altered
 * apart. Edges and levels keep their names: a seam of both sides is still called by one name;
 * a gusset goes with its side. No girth changes.
 *
 * @throws usage where left and right are separate already.
 */
export const splitSides = (pattern: Pattern): SplitSides => {
  if (pattern.pieces === 'single') {
    throw new StaywrightError('usage', 'its panels are drawn singly already, not in pairs', { where: pattern.name });
  }
  const panels = SIDES.flatMap((side) => pattern.panels.map((panel) => onSide(panel, side)));
  const split: Pattern = { ...pattern, pieces: 'single', panels };
  return {
    pattern: split,
    change: {
      panels: pattern.panels.map(({ name }) => ({
        pair: name,
        left: nameOn(name, 'left'),
        right: nameOn(name, 'right'),
      })),
      girth: girthChanges(pattern, split),
    },
    findings: [],
  };
};
