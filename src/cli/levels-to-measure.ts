import { StaywrightError } from '../errors.ts';
import type { Finding } from '../pattern/finding.ts';
import { levelCalled } from '../pattern/girth-at.ts';
import type { LevelRef } from '../pattern/level-ref.ts';
import { findLevel, levelNames } from '../pattern/look-up.ts';
import type { Pattern } from '../pattern/pattern.ts';
import { parseLevels } from './parse-level.ts';

/** The levels asked for, or else every named level that all panels have, with a note about the others. */
export const levelsToMeasure = (
  pattern: Pattern,
  asked: readonly string[] | undefined,
): { readonly levels: readonly LevelRef[]; readonly findings: readonly Finding[] } => {
  if (asked !== undefined) return { levels: asked.flatMap((text) => parseLevels(text, '--level')), findings: [] };
  const names = levelNames(pattern);
  const lacking = (name: string) =>
    pattern.panels.filter((panel) => !panel.gusset && findLevel(panel, name) === undefined);
  const shared = names.filter((name) => lacking(name).length === 0);
  if (shared.length === 0) {
    throw new StaywrightError('input', 'has no level that all panels share', {
      where: pattern.name,
      hint: 'name its levels with staywright label',
    });
  }
  const left = names.filter((name) => !shared.includes(name));
  return {
    levels: shared.map(levelCalled),
    findings: left.map((name) => ({
      weight: 'note',
      kind: 'level-left-out',
      where: name,
      message: `not measured: panel ${lacking(name)
        .map((panel) => panel.name)
        .join(', ')} lacks it`,
    })),
  };
};
