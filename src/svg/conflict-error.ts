import { StaywrightError } from '../errors.ts';
import { conflictCure } from './conflict-cure.ts';
import { conflictPlaces, type ConflictPlace } from './conflict-places.ts';

/** The error for a file in which git left the marks of two versions; undefined where there are none. */
export const conflictError = (source: string, file: string): StaywrightError | undefined => {
  const conflicts = conflictPlaces(source);
  if (conflicts === undefined) return undefined;
  const where = `${file}:${conflicts.line}:1`;
  const { places } = conflicts;
  if (places.length === 0) {
    const hint = 'take out the lines that begin with <<<<<<<, =======, or >>>>>>>, once one version alone is left';
    return new StaywrightError('input', 'a mark of git stands here, where two versions met', { where, hint });
  }
  return new StaywrightError('input', `git could not join two versions, which differ in ${listOf(places)}`, {
    where,
    hint: conflictCure(conflicts, file, /^<svg [^>]*\bdata-part="/m.test(source)),
  });
};

/** Names told of each kind, and panels told with what differs in them: past these they are counted. */
const MOST_NAMES = 3;
const MOST_PANELS = 2;
/** Names are cut past this, and a panel whose things take more letters is told by their number. */
const LONGEST_NAME = 24;
const LONGEST_PART = 80;

/** `panel back (line 252): edges top, cb and level bust; 3 panels more; the record of changes`. */
const listOf = (places: readonly ConflictPlace[]): string => {
  const panels = [...new Set(places.flatMap(({ panel }) => (panel === undefined ? [] : [panel])))];
  const told = panels.slice(0, MOST_PANELS).map((panel) => {
    const own = places.filter((place) => place.panel === panel);
    return `panel ${cut(panel)} (line ${own[0]!.line}): ${thingsOf(own)}`;
  });
  const left = panels.length - told.length;
  const others = places.filter(({ panel }) => panel === undefined);
  return [
    ...told,
    ...(left > 0 ? [`${counted(left, 'panel')} more`] : []),
    ...(others.length === 0 ? [] : [thingsOf(others)]),
  ].join('; ');
};

const thingsOf = (places: readonly ConflictPlace[]): string => {
  const things = [...new Set(places.map(({ thing }) => thing))];
  const kinds = ['edge', 'level'].map((kind) => ({
    kind,
    names: things.filter((thing) => thing.startsWith(`${kind} `)).map((thing) => thing.slice(kind.length + 1)),
  }));
  const rest = things.filter((thing) => !/^(?:edge|level) /.test(thing));
  const others = rest.length > MOST_NAMES ? [...rest.slice(0, MOST_NAMES - 1), OTHER_THINGS] : rest;
  const some = kinds.filter(({ names }) => names.length > 0);
  const named = [...some.map(({ kind, names }) => namesOf(kind, names)), ...others.map(cut)].join(' and ');
  if (named.length <= LONGEST_PART) return named;
  return [
    ...some.map(({ kind, names }) => counted(names.length, kind)),
    ...(rest.length === 0 ? [] : [OTHER_THINGS]),
  ].join(' and ');
};

const OTHER_THINGS = 'other lines';

/** `edges top, cb, bottom, 2 edges more`; a last one is named rather than counted. */
const namesOf = (kind: string, names: readonly string[]): string => {
  const most = names.length > MOST_NAMES + 1 ? MOST_NAMES : names.length;
  const left = names.length - most;
  const told = [...names.slice(0, most).map(cut), ...(left > 0 ? [`${counted(left, kind)} more`] : [])];
  return `${kind}${names.length > 1 ? 's' : ''} ${told.join(', ')}`;
};

const counted = (count: number, kind: string): string => `${count} ${kind}${count === 1 ? '' : 's'}`;

const cut = (name: string): string => {
  const letters = [...name];
  return letters.length > LONGEST_NAME ? `${letters.slice(0, LONGEST_NAME - 1).join('')}…` : name;
};
