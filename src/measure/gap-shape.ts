import type { LevelRef } from '../pattern/level-ref.ts';
import { levelY } from '../pattern/level-y.ts';
import type { Pattern } from '../pattern/pattern.ts';

/** The opening seen from behind, in a maker's words. */
export type GapShape =
  | 'even'
  | 'wider at the top'
  | 'wider at the waist'
  | 'wider at the bottom'
  | 'narrower at the waist'
  | `wider at ${string}`;

/** Gaps that differ by no more than this (1/4 in) look parallel when worn. Common practice. */
const LOOKS_EVEN = 6.35;

/**
 * The shape of the opening: where it is widest, unless all gaps look alike.
 * `narrower at the waist` where it widens both ways from the middle. `gaps` belong to `wanted`, in any order of height.
 */
export const gapShape = (
  pattern: Pattern,
  wanted: readonly { readonly level: LevelRef }[],
  gaps: readonly number[],
): GapShape => {
  const panel = pattern.panels[0];
  if (!panel || gaps.length < 2) return 'even';
  const fromTop = wanted
    .map(({ level }, index) => ({ level, gap: gaps[index]!, y: levelY(panel, level) }))
    .toSorted((a, b) => a.y - b.y);
  const widest = fromTop.reduce((best, row) => (row.gap > best.gap ? row : best));
  const narrowest = fromTop.reduce((best, row) => (row.gap < best.gap ? row : best));
  if (widest.gap - narrowest.gap <= LOOKS_EVEN) return 'even';
  const [top, bottom] = [fromTop[0]!, fromTop.at(-1)!];
  const hollow = Math.min(top.gap, bottom.gap) - narrowest.gap > LOOKS_EVEN;
  if (hollow && narrowest.level.name === 'waist') return 'narrower at the waist';
  if (widest === top) return 'wider at the top';
  if (widest === bottom) return 'wider at the bottom';
  return widest.level.name === 'waist' ? 'wider at the waist' : `wider at ${widest.level.text}`;
};
