import type { Command as Commander } from '@commander-js/extra-typings';
import type { AmountAt, Where } from '../alterations/seams/amount-along.ts';
import type { MoveBy, MoveSeams } from '../alterations/move-seams-options.ts';
import { collect } from '../cli/collect.ts';
import { parseLength } from '../cli/parse-length.ts';
import { parseLevel, parseLevels } from '../cli/parse-level.ts';
import { parseNames } from '../cli/parse-names.ts';
import { parseNamedSettings } from '../cli/parse-settings.ts';
import { usage } from '../errors.ts';
import type { Seam } from '../pattern/look-up.ts';

type MoveOptions = {
  readonly seam?: string[] | undefined;
  readonly amount?: string | undefined;
  readonly girth?: string | undefined;
  readonly at?: string[] | undefined;
  readonly share?: string[] | undefined;
  readonly above?: string | undefined;
  readonly below?: string | undefined;
  readonly between?: string | undefined;
  readonly fullAt?: string | undefined;
  readonly square?: true | undefined;
};

/** The options of take-in and let-out. */
export const declareMove = (commander: Commander): Commander<[], MoveOptions> =>
  commander
    .option('--seam <names>', 'seams to move: cb or cb,side; repeatable', collect)
    .option('--amount <length>', 'how far each stitching line moves: 0.5in, 6mm')
    .option('--girth <length>', 'the whole change round the body, shared by all lines')
    .option('--at <level=length>', 'an amount at a level; repeatable, blended between', collect)
    .option('--share <parts>', 'with --girth: cb=4,side=1, not equally', collect)
    .option('--above <level>', 'nothing at the level and below it')
    .option('--below <level>', 'nothing at the level and above it')
    .option('--between <levels>', 'waist,hip: nothing at both, full between')
    .option('--full-at <level>', 'where the full amount is reached (next named level)')
    .option('--square', 'measure at right angles to the seam, not the level');

/** What the amounts mean, for the help of both. */
export const MOVE_NOTES: readonly string[] = [
  'Give one of --amount, --girth and --at. --amount moves EACH stitching line along the level, so the girth changes by the amount times the number of lines round the body; the report says how many. A negative amount is the opposite.',
  'The highest and the lowest --at run on to top and bottom, so that one alone moves the whole seam: add --at waist=0mm to hold the waist.',
  'With none of --above, --below and --between the whole seam moves. A taper leaves its level without a kink and is full at the next named level; between two levels with none between them, half-way.',
];

/** The alteration that the options ask for; which seams and levels there are is checked by the alteration itself. */
export const moveOf = (options: MoveOptions, direction: MoveSeams['direction'], seams: readonly Seam[]): MoveSeams => {
  if (options.seam === undefined && options.share === undefined) {
    const names = seams.map(({ name }) => name).join(', ');
    throw usage(
      'which seam?',
      '--seam',
      names === '' ? 'name its seams first: staywright help label' : `there are: ${names}`,
    );
  }
  return {
    seams: parseNames(options.seam ?? [], '--seam'),
    direction,
    by: byOf(options),
    where: whereOf(options),
    square: options.square === true,
  };
};

const byOf = ({ amount, girth, at, share }: MoveOptions): MoveBy => {
  const given = [amount && '--amount', girth && '--girth', at && '--at'].filter((flag) => flag !== undefined);
  if (given.length === 0)
    throw usage('how much?', '--amount', 'each stitching line by --amount 6mm, or --girth 1in in all');
  if (given.length > 1)
    throw usage(`cannot go with ${given[0]}`, String(given[1]), 'give one of --amount, --girth and --at');
  if (share !== undefined && girth === undefined) throw usage('shares out a --girth, and there is none', '--share');
  if (amount !== undefined) return { kind: 'amount', amount: parseLength(amount, '--amount') };
  if (girth !== undefined) {
    const whole = { kind: 'girth', girth: parseLength(girth, '--girth') } as const;
    return share === undefined ? whole : { ...whole, share: sharesOf(share) };
  }
  return { kind: 'at', at: at!.length === 0 ? [] : amountsOf(at!) };
};

const sharesOf = (texts: readonly string[]): Record<string, number> =>
  Object.fromEntries(
    parseNamedSettings(texts, '--share', 'cb=4,side=1').map(({ name, value }) => {
      const part = /^\d+(\.\d+)?$/.test(value) ? Number(value) : Number.NaN;
      if (part > 0) return [name, part];
      throw usage(`'${value}' is not a part`, '--share', 'parts are plain numbers: cb=4,side=1');
    }),
  );

const amountsOf = (texts: readonly string[]): AmountAt[] =>
  parseNamedSettings(texts, '--at', 'bust=6mm').map(({ name, value }) => ({
    level: parseLevel(name, '--at'),
    amount: parseLength(value, '--at'),
  }));

const whereOf = ({ above, below, between, fullAt, at }: MoveOptions): Where => {
  const given = [above && '--above', below && '--below', between && '--between'].filter((flag) => flag !== undefined);
  if (given.length > 1)
    throw usage(`cannot go with ${given[0]}`, String(given[1]), 'between two levels is --between L1,L2');
  const [place] = given;
  if (at !== undefined && (place ?? fullAt) !== undefined) {
    throw usage('says itself where the seam moves', '--at', `leave out ${place ?? '--full-at'}`);
  }
  const full = fullAt === undefined ? {} : { fullAt: parseLevel(fullAt, '--full-at') };
  if (above !== undefined) return { kind: 'above', level: parseLevel(above, '--above'), ...full };
  if (below !== undefined) return { kind: 'below', level: parseLevel(below, '--below'), ...full };
  if (between !== undefined) {
    const [one, other, third] = parseLevels(between, '--between');
    if (other === undefined || third !== undefined)
      throw usage('needs two levels', '--between', 'write --between waist,hip');
    return { kind: 'between', levels: [one!, other], ...full };
  }
  if (fullAt !== undefined) throw usage('needs --above, --below or --between', '--full-at');
  return { kind: 'whole' };
};
