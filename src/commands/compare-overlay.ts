import type { Scene } from '../ink/scene.ts';
import { comparePatterns } from '../measure/compare-patterns.ts';
import type { Comparison } from '../measure/compare/comparison.ts';
import { overlayScene } from '../picture/overlay-scene.ts';
import type { Units } from '../pattern/pattern.ts';
import { hashGeometry } from '../record/hash-geometry.ts';
import type { Sheet } from '../svg/sheet.ts';
import { splitLike, type Version, type Versions } from './compare-versions.ts';

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

/** One sheet before and after a change, drawn over each other. */
export const changeOverlay = (before: Sheet, after: Sheet, units: Units): Scene => {
  const version = (sheet: Sheet, beside: Sheet): Version => ({
    sheet: splitLike(sheet, beside),
    hash: hashGeometry(sheet.pattern),
    own: [],
  });
  const versions = { before: version(before, after), after: version(after, before), units };
  const [was, is] = [versions.before.sheet.pattern, versions.after.sheet.pattern];
  return compareOverlay(comparePatterns(was, is, { sharesFrame: true }), versions);
};

const titleOf = (before: Version, after: Version): string => {
  const [was, is] = [before.sheet.pattern.name, after.sheet.pattern.name];
  return was === is ? `${is}: two versions` : `${was} and ${is}`;
};

const versionWords = ({ sheet, hash }: Version): string => `${sheet.pattern.name} (${hash.slice(0, 8)})`;
