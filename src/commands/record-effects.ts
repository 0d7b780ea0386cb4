import { formatLength } from '../pattern/format-length.ts';
import type { Units } from '../pattern/pattern.ts';
import type { Change } from '../record/change.ts';

/** What a change did round the body: a heading, then a line for each level where that is to be seen. */
export const recordEffects = ({ before, girth_mm: girths }: Change, units: Units): readonly string[] => {
  const levels = Object.entries(girths).map(([level, girth]) => ({
    level,
    was: girth.before === null ? undefined : formatLength(girth.before, units),
    is: formatLength(girth.after, units),
  }));
  const changed = levels.filter(({ was, is }) => was !== is);
  if (levels.length === 0) return ['no girth can be measured yet'];
  if (changed.length === 0) return ['no girth changed'];
  const heading =
    before === null || changed.every(({ was }) => was === undefined) ? 'now round the body' : 'round the body';
  return [
    `${heading}:`,
    ...changed.map(({ level, was, is }) => (was === undefined ? `${level} ${is}` : `${level} ${was} -> ${is}`)),
  ];
};
