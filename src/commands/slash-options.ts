import type { Command as Commander } from '@commander-js/extra-typings';
import { KEEPS, type Keep, type Slash } from '../alterations/slash-options.ts';
import { choiceOption } from '../cli/choice-option.ts';
import { collect } from '../cli/collect.ts';
import { parseLength } from '../cli/parse-length.ts';
import { parseLevel, parseLevels } from '../cli/parse-level.ts';
import { usage } from '../errors.ts';

type SlashOptions = {
  readonly panel?: string | undefined;
  readonly from?: string | undefined;
  readonly hinge?: string | undefined;
  readonly parallel?: true | undefined;
  readonly spread?: string | undefined;
  readonly lines?: string | undefined;
  readonly level?: string[] | undefined;
  readonly keep?: string | undefined;
};

export const declareSlash = (commander: Commander): Commander<[], SlashOptions> =>
  commander
    .option('--panel <name>', 'the panel to slash')
    .option('--from <edge>', 'where the slashes open: top, bottom or a seam')
    .option('--hinge <level|edge>', 'where they end: a level, or the edge opposite')
    .option('--parallel', 'no hinge: right through, the parts move straight apart')
    .option('--spread <length>', 'how far EACH opens: 6mm; overlaps with a minus: -6mm')
    .option('--lines <number>', 'how many slashes, equally spaced (1)')
    .option('--level <level>', 'where a slash from a seam lies; repeatable', collect)
    .addOption(choiceOption('--keep <part>', 'keeps the grain: front, back or middle (middle)', KEEPS));

/** What the options mean, for the help. */
export const SLASH_NOTES: readonly string[] = [
  'Slashes from top or bottom run down the panel and part that edge, and the level or edge where they end, into equal lengths, so they follow the shape of the panel. Slashes from a seam run level across to the other seam.',
  'With --hinge a level all beyond it stays as it is. With an edge the slashes go right through to it; that edge keeps its length.',
  'With --keep middle an odd number of slashes turns the parts evenly to both sides, an even number leaves the middle part alone. From a seam the part with the waist stays; a slash along the waist opens evenly above and below it. The waist never moves.',
  'Edges that open become one fair line: each part keeps its own line but for a stretch at the gap; where slashes lie close together the opening is spread evenly.',
  'Only this panel changes; seams that no longer match their neighbours are named.',
];

/** The alteration that the options ask for; whether it fits the panel is checked by the alteration itself. */
export const slashOf = (options: SlashOptions): Slash => {
  const { hinge, parallel, lines, level } = options;
  const panel = asked(options.panel, 'which panel?', '--panel', 'name one: --panel side-front');
  const from = asked(options.from, 'from which edge?', '--from', 'top, bottom or the name of a seam');
  const spread = asked(options.spread, 'how far does each slash open?', '--spread', 'each by --spread 6mm');
  if (hinge !== undefined && parallel) throw usage('cannot go with --hinge', '--parallel', 'give one of the two');
  if (hinge === undefined && !parallel)
    throw usage('where do the slashes end?', '--hinge', 'a level or the edge opposite; or --parallel, right through');
  if (lines !== undefined && level !== undefined)
    throw usage('cannot go with --level', '--lines', 'each --level is a slash');
  return {
    panel,
    from,
    ...(hinge === undefined ? {} : { hinge: parseLevel(hinge, '--hinge') }),
    lines: lines === undefined ? 1 : /^\d+$/.test(lines.trim()) ? Number(lines) : Number.NaN,
    at: (level ?? []).flatMap((text) => parseLevels(text, '--level')),
    spread: parseLength(spread, '--spread'),
    keep: keepOf(options.keep),
  };
};

const keepOf = (text: string | undefined): Keep => {
  const keep = text === undefined ? 'middle' : KEEPS.find((each) => each === text.trim());
  if (keep !== undefined) return keep;
  throw usage(`'${text}' is no part`, '--keep', `parts are: ${KEEPS.join(', ')}`);
};

const asked = (value: string | undefined, question: string, where: string, hint: string): string => {
  if (value !== undefined && value.trim() !== '') return value.trim();
  throw usage(question, where, hint);
};
