import { StaywrightError } from '../errors.ts';
import { girth } from '../measure/girth.ts';
import { levelNames } from '../pattern/look-up.ts';
import { levelCalled } from '../pattern/girth-at.ts';
import type { Pattern } from '../pattern/pattern.ts';
import { appendChange } from '../record/append-change.ts';
import type { Change } from '../record/change.ts';
import type { Sheet } from '../svg/sheet.ts';
import { wholePattern, wholeSheet } from './one-side.ts';
import { VERSION } from './version.ts';

/**
 * The whole sheet with its new pattern and one line more in its record; `read` is absent where a plain drawing was read,
 * `other` present where parts came from another pattern.
 */
export const recordChange = (read: Sheet | undefined, altered: Pattern, command: string, other?: Pattern): Sheet => {
  const before = read && wholeSheet(read);
  const after = wholePattern(altered, read?.aside);
  return {
    ...before,
    pattern: after,
    record: appendChange(before?.record ?? [], {
      command,
      version: VERSION,
      ...(before === undefined ? {} : { before: before.pattern }),
      after,
      ...(other === undefined ? {} : { other }),
      girths: girthsOf(before?.pattern, after),
    }),
  };
};

const girthsOf = (before: Pattern | undefined, after: Pattern): Change['girth_mm'] => {
  const girths = levelNames(after).flatMap((level) => {
    const now = girthIfAny(after, level);
    const then = before === undefined ? null : girthIfAny(before, level);
    return now === null ? [] : [[level, { before: then, after: now }] as const];
  });
  return Object.fromEntries(girths);
};

/** Nothing where a panel does not reach the level, or where the edges are cutting lines, which say nothing of girth. */
const girthIfAny = (pattern: Pattern, level: string): number | null => {
  try {
    return Math.round(girth(pattern, [levelCalled(level)]).levels[0]!.girth * 1000) / 1000;
  } catch (error) {
    if (error instanceof StaywrightError) return null;
    throw error;
  }
};
