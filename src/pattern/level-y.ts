import { StaywrightError } from '../errors.ts';
import { seamSpan } from './chord.ts';
import type { LevelRef } from './level-ref.ts';
import { findLevel } from './look-up.ts';
import type { Panel } from './panel.ts';
import { suggestName } from './suggest.ts';

/**
 * The height of a level on a panel, in the panel's coordinates (y down, so a positive offset gives a smaller y).
 * `top` and `bottom` are the highest and the lowest line that both seam edges of this panel reach.
 *
 * @throws usage, with the nearest name, where the panel has no such level.
 */
export const levelY = (panel: Panel, ref: LevelRef): number => {
  const level = findLevel(panel, ref.name);
  if (level) return level.y - ref.offset;
  const span = seamSpan(panel);
  if (span && (ref.name === 'top' || ref.name === 'bottom')) return span[ref.name] - ref.offset;
  const names = [...panel.levels.map(({ name }) => name), 'top', 'bottom'];
  throw new StaywrightError('usage', `no level is called ${ref.name}`, {
    where: `panel ${panel.name}`,
    hint: suggestName(ref.name, names),
  });
};
