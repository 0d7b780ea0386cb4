import type { Scene } from '../ink/scene.ts';
import type { Comparison } from '../measure/compare/comparison.ts';
import { overlayScene } from '../picture/overlay-scene.ts';
import type { Version, Versions } from './compare-versions.ts';

/** Both versions drawn over each other. */
export const compareOverlay = (
  { panels, sharesFrame }: Comparison,
  { before, after, units }: Pick<Versions, 'before' | 'after' | 'units'>,
): Scene =>
  overlayScene(before.sheet.pattern, after.sheet.pattern, panels, {
    title: titleOf(before, after),
    before: versionWords(before),
    after: versionWords(after),
    units,
    sharesFrame,
  });

const titleOf = (before: Version, after: Version): string => {
  const [was, is] = [before.sheet.pattern.name, after.sheet.pattern.name];
  return was === is ? `${is}: two versions` : `${was} and ${is}`;
};

const versionWords = ({ sheet, hash }: Version): string => `${sheet.pattern.name} (${hash.slice(0, 8)})`;
