import { StaywrightError } from '../../errors.ts';
import { waistOf } from '../../pattern/look-up.ts';
import type { Panel } from '../../pattern/panel.ts';
import type { Pattern } from '../../pattern/pattern.ts';

/** What the two are called in messages. */
export interface VersionNames {
  readonly before: string;
  readonly after: string;
}

const ONLY_VERSIONS = 'only versions or sizes of one pattern can be compared: the same panels with the same seams';

const onlyIn = (one: readonly string[], other: readonly string[]): string[] =>
  one.filter((name) => !other.includes(name));

/** Refuses names that only one of the two has. */
const refuseDifferent = (
  thing: string,
  before: readonly string[],
  after: readonly string[],
  names: VersionNames,
  place = '',
) => {
  const [gone, more] = [onlyIn(before, after), onlyIn(after, before)];
  if (gone.length === 0 && more.length === 0) return;
  const words = [
    ...(gone.length > 0 ? [`only ${names.before} has ${thing} ${gone.join(', ')}`] : []),
    ...(more.length > 0 ? [`only ${names.after} has ${thing} ${more.join(', ')}`] : []),
  ];
  throw new StaywrightError('input', words.join('; '), {
    ...(place === '' ? {} : { where: place }),
    hint: ONLY_VERSIONS,
  });
};

const isOwn = ({ gusset }: Panel): boolean => gusset === undefined;

const namesOf = ({ panels }: Pattern): string[] => panels.filter(isOwn).map(({ name }) => name);

const refusePieces = (before: Pattern, after: Pattern, names: VersionNames): void => {
  if (before.pieces === after.pieces) return;
  const [pairs, single] = before.pieces === 'pairs' ? [names.before, names.after] : [names.after, names.before];
  throw new StaywrightError('input', `its panels are cut in pairs, those of ${single} singly`, {
    where: pairs,
    hint: 'split it first: staywright split-sides',
  });
};

const refusePanel = (before: Panel, after: Panel, sharesFrame: boolean, names: VersionNames): void => {
  const where = `panel ${after.name}`;
  const edges = [before, after].map((panel) => panel.edges.map(({ name }) => name));
  refuseDifferent('edge', edges[0]!, edges[1]!, names, where);
  if (before.line !== after.line) {
    const [cutting, stitching] = before.line === 'cutting' ? [names.before, names.after] : [names.after, names.before];
    throw new StaywrightError(
      'input',
      `its cutting line in ${cutting} cannot be compared with its stitching line in ${stitching}`,
      {
        where,
        hint: `take the allowance off first: staywright strip-allowance ${cutting}`,
      },
    );
  }
  if (!sharesFrame && (waistOf(before) === undefined || waistOf(after) === undefined)) {
    throw new StaywrightError('input', 'has no waist to lay one version on the other by', {
      where: `${waistOf(before) === undefined ? names.before : names.after}, ${where}`,
      hint: 'name its seams and levels with staywright label',
    });
  }
};

/**
 * Refuses two patterns that are no versions or sizes of one: other panels, other edges, cutting lines against stitching lines, pairs
 * against single panels, nothing to lay them on each other by. Gussets may be in one only.
 *
 * @throws input, naming what only one of them has.
 */
export const refuseUnlike = (before: Pattern, after: Pattern, sharesFrame: boolean, names: VersionNames): void => {
  refusePieces(before, after, names);
  refuseDifferent('panel', namesOf(before), namesOf(after), names);
  for (const panel of after.panels) {
    const old = before.panels.find(({ name }) => name === panel.name);
    if (old) refusePanel(old, panel, sharesFrame, names);
  }
};
