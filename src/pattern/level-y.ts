import { StaywrightError } from '../errors.ts';
import { seamSpan } from './chord.ts';
import type { LevelRef } from './level-ref.ts';
import { findLevel, waistOf } from './look-up.ts';
import type { Panel } from './panel.ts';
import { suggestName } from './suggest.ts';

/**
 * The height of a level on a panel, in the panel's coordinates (y down, so a positive offset gives a smaller y).
 * `top` and `bottom` are the highest and the lowest line that both seam edges of this panel reach.
 *
 * @throws usage, with the nearest name, where the panel has no such level.
 */
export const levelY = (panel: Panel, ref: LevelRef): number => {
  const y = levelYIfAny(panel, ref);
  if (y !== undefined) return y;
  const names = [...panel.levels.map(({ name }) => name), 'top', 'bottom'];
  throw new StaywrightError('usage', `no level is called ${ref.name}`, {
    where: `panel ${panel.name}`,
    hint: suggestName(ref.name, names),
  });
};

/** As `levelY`, but undefined where the panel has no such level. */
export const levelYIfAny = (panel: Panel, { name, offset }: LevelRef): number | undefined => {
  const y = name === 'waist' ? waistOf(panel) : findLevel(panel, name)?.y;
  if (y !== undefined) return y - offset;
  const span = name === 'top' || name === 'bottom' ? seamSpan(panel)?.[name] : undefined;
  return span === undefined ? undefined : span - offset;
};
