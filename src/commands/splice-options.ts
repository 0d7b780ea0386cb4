import type { Command as Commander } from '@commander-js/extra-typings';
import type { Splice } from '../alterations/splice.ts';
import type { SourceAt, SpliceWhere } from '../alterations/splice/splice-plan.ts';
import { collect } from '../cli/collect.ts';
import { parseLength } from '../cli/parse-length.ts';
import { parseLevel } from '../cli/parse-level.ts';
import { parseNamedSettings } from '../cli/parse-settings.ts';
import { usage } from '../errors.ts';
import { suggestName } from '../pattern/suggest.ts';

type SpliceOptions = {
  readonly above?: string | undefined;
  readonly below?: string | undefined;
  readonly blend?: string | undefined;
  readonly size?: string[] | undefined;
};

export const declareSplice = (commander: Commander): Commander<[], SpliceOptions> =>
  commander
    .option('--above <level>', 'what lies above the level comes from OTHER')
    .option('--below <level>', 'what lies below the level comes from OTHER')
    .option('--blend <length>', 'how far from the level all is OTHER (2in, 50mm)')
    .option('--size <level=source>', 'at a level, this or other; repeatable', collect);

export const SPLICE_NOTES: readonly string[] = [
  'OTHER is another size or version of the same pattern: the same panels with the same seams, both without seam allowance. Each of its panels is laid on this one, waist on waist and grainline on grainline.',
  'At the level of --above or --below all is still FILE, and from --blend on all is OTHER; without --blend 2in (50mm), longer where a line moves far (six times as far as it moves), shorter where there is no room. With --size each level named is exactly FILE (this) or OTHER (other), blended in between, and the highest and the lowest run on to top and bottom.',
  "Levels, grainlines, bones and widths of allowance stay FILE's. Where a level lies at another height in OTHER, it comes to lie there where OTHER rules.",
];

/** A shorter join would be a corner once coordinates are rounded to what a sheet holds. */
const SHORTEST_BLEND = 5;

/** What the options ask for; which levels there are is checked by the alteration itself. */
export const spliceOf = ({ above, below, blend, size }: SpliceOptions): Splice => {
  const given = [above && '--above', below && '--below', size && '--size'].filter((flag) => flag !== undefined);
  if (given.length === 0) throw usage('which part of the other?', '--above', 'write --above waist');
  if (given.length > 1) {
    throw usage(`cannot go with ${given[0]}`, String(given[1]), 'give one of --above and --below, or --size');
  }
  if (size !== undefined) {
    if (blend !== undefined) throw usage('sizes are blended from level to level', '--blend', 'leave it out');
    return { where: sizesOf(size) };
  }
  const where: SpliceWhere =
    above === undefined
      ? { kind: 'below', level: parseLevel(below!, '--below') }
      : { kind: 'above', level: parseLevel(above, '--above') };
  if (blend === undefined) return { where };
  const length = parseLength(blend, '--blend');
  if (length < SHORTEST_BLEND)
    throw usage('must be 5 mm or longer, to be a fair line', '--blend', 'two inches are usual: --blend 2in');
  return { where, blend: length };
};

const SOURCES = ['this', 'other'] as const;

const sizesOf = (texts: readonly string[]): SpliceWhere => {
  const at = parseNamedSettings(texts, '--size', 'bust=other').map(({ name, value }): SourceAt => {
    const source = SOURCES.find((word) => word === value.toLowerCase());
    if (source === undefined) throw usage(`'${value}' is not this or other`, '--size', suggestName(value, SOURCES));
    return { level: parseLevel(name, '--size'), source };
  });
  if (at.every(({ source }) => source === 'this')) {
    throw usage('takes nothing from the other', '--size', 'name a level of the other: --size bust=other');
  }
  return { kind: 'levels', at };
};
