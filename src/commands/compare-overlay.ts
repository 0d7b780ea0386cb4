import type { Scene } from '../ink/scene.ts';
import { comparePatterns } from '../measure/compare-patterns.ts';
import type { Comparison } from '../measure/compare/comparison.ts';
import { overlayScene } from '../picture/overlay-scene.ts';
import type { Units } from '../pattern/pattern.ts';
import { hashGeometry } from '../record/hash-geometry.ts';
import type { Sheet } from '../svg/sheet.ts';
import { splitLike, type Version } from './compare-versions.ts';

/** What the picture names of a version. */
type DrawnVersion = Pick<Version, 'sheet' | 'hash' | 'file'>;

/** Both versions drawn over each other. */
export const compareOverlay = (
  { panels, sharesFrame }: Comparison,
  { before, after, units }: { readonly before: DrawnVersion; readonly after: DrawnVersion; readonly units: Units },
  facts: readonly string[] = [],
): Scene =>
  overlayScene(before.sheet.pattern, after.sheet.pattern, panels, {
    title: titleOf(before, after),
    facts,
    before: versionWords(before),
    after: versionWords(after),
    units,
    sharesFrame,
  });

/** One sheet before and after a change, drawn over each other. */
export const changeOverlay = (before: Sheet, after: Sheet, units: Units): Scene => {
  const versions = { before: drawnBeside(before, after), after: drawnBeside(after, before), units };
  const [was, is] = [versions.before.sheet.pattern, versions.after.sheet.pattern];
  const done = after.record.slice(before.record.length).map(({ command }) => command);
  return compareOverlay(comparePatterns(was, is, { sharesFrame: true }), versions, done);
};

const drawnBeside = (sheet: Sheet, other: Sheet): DrawnVersion => ({
  sheet: splitLike(sheet, other),
  hash: hashGeometry(sheet.pattern),
});

const titleOf = (before: DrawnVersion, after: DrawnVersion): string => {
  const [was, is] = [before.sheet.pattern.name, after.sheet.pattern.name];
  return was === is ? `${is}: two versions` : `${was} and ${is}`;
};

const versionWords = ({ sheet, hash, file = sheet.pattern.name }: DrawnVersion): string =>
  `${file} (${hash.slice(0, 8)})`;
