import { StaywrightError } from '../errors.ts';
import type { LevelRef } from './level-ref.ts';
import { levelY } from './level-y.ts';
import type { Pattern } from './pattern.ts';
import { widthAt } from './width-at.ts';

/** One level measured: round the whole body, and the width of each panel once. */
export interface LevelGirth {
  readonly level: string;
  readonly girth: number;
  readonly panels: readonly { readonly panel: string; readonly width: number }[];
}

/** How often each panel goes round the body: twice where it is cut in pairs. */
export const timesRound = (pattern: Pattern): 1 | 2 => (pattern.pieces === 'pairs' ? 2 : 1);

/**
 * Length round the body along a level: the sum of the chords between the two seam edges of each panel, twice for pairs.
 * A gusset adds nothing at a level that it does not reach. It measures whatever line the edges are; see `girth` for the refusal of cutting lines.
 *
 * @throws usage for an unknown level, input where a panel does not reach the level.
 */
export const girthAt = (pattern: Pattern, ref: LevelRef): LevelGirth => {
  const panels = pattern.panels.map((panel) => {
    if (panel.gusset === undefined) levelY(panel, ref);
    const width = widthAt(pattern, panel, ref);
    if (width !== undefined) return { panel: panel.name, width };
    throw new StaywrightError('input', `its seams do not reach ${ref.text}`, {
      where: `panel ${panel.name}`,
      hint: 'choose a level between its top and its bottom',
    });
  });
  const half = panels.reduce((sum, { width }) => sum + width, 0);
  return { level: ref.text, girth: half * timesRound(pattern), panels };
};

/** The named level itself, as a reference. */
export const levelCalled = (name: string): LevelRef => ({ name, offset: 0, text: name });
