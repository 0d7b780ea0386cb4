import type { Pattern } from '../pattern/pattern.ts';
import { hashGeometry } from './hash-geometry.ts';

/** Every panel by its name, with a hash of its own. */
const hashesOf = (pattern: Pattern): Map<string, string> =>
  new Map(pattern.panels.map((panel) => [panel.name, hashGeometry({ ...pattern, panels: [panel] })]));

/**
 * Names of the panels whose geometry differs between two versions, with those that only one of them has: in the order of the later
 * version, then those that it lost. Nothing where none differs, or every one of the later version does.
 */
export const changedPanels = (before: Pattern, after: Pattern): string[] | undefined => {
  const [then, now] = [hashesOf(before), hashesOf(after)];
  const changed = [...now.keys()].filter((name) => now.get(name) !== then.get(name));
  const lost = [...then.keys()].filter((name) => !now.has(name));
  const names = [...changed, ...lost];
  return names.length === 0 || changed.length === now.size ? undefined : names;
};
