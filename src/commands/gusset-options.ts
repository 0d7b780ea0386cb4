import type { Command as Commander } from '@commander-js/extra-typings';
import { GUSSET_SIDES, type GussetPlace, type GussetWanted } from '../alterations/gusset-options.ts';
import { choiceOption } from '../cli/choice-option.ts';
import { collect } from '../cli/collect.ts';
import { parseLength } from '../cli/parse-length.ts';
import { parseLevel } from '../cli/parse-level.ts';
import { parseNames } from '../cli/parse-names.ts';
import { StaywrightError, usage } from '../errors.ts';

type GussetOptions = {
  readonly seam?: string[] | undefined;
  readonly below?: string | undefined;
  readonly panel?: string | undefined;
  readonly slit?: string | undefined;
  readonly length?: string | undefined;
  readonly width?: string | undefined;
  readonly measured?: string | undefined;
  readonly sides?: string | undefined;
  readonly name?: string | undefined;
};

export const declareGusset = (commander: Commander): Commander<[], GussetOptions> =>
  commander
    .option('--seam <name>', 'the seam that is left open for it', collect)
    .option('--below <level>', 'with --seam: open from this level down')
    .option('--panel <name>', 'the panel that is slit for it')
    .option('--slit <level:part>', 'waist-1in:0.5, from that level down; 0 front, 1 back')
    .option('--length <length>', 'how far up from the bottom it opens, along the seam')
    .option('--width <length>', 'of its base, from corner to corner: 2in')
    .option('--measured <lengths>', 'left,right as measured on the body: the mean of both')
    .addOption(choiceOption('--sides <form>', 'straight (default) or curved, bowed out over the hip', GUSSET_SIDES))
    .option('--name <name>', 'of the new panel; one of that name is taken out first');

/** What the options mean, for the help. */
export const GUSSET_NOTES: readonly string[] = [
  'The gusset is a panel of its own: apex on top, its sides as long as the opening. A seam or slit opens down to the bottom edge; outlines stay as they are, the opening is a mark on the sheet. A slit runs straight down, with the grain.',
  'A half pattern gets two, one on each side of the body, so the girth at the bottom grows by twice the width. The report says what it adds at every level.',
  'Curved sides bow out by a thirtieth of their length and are still as long as the opening. The name is SEAM-gusset or PANEL-gusset unless --name gives another.',
];

/** The alteration that the options ask for; whether it fits the pattern is checked by the alteration itself. */
export const gussetOf = (options: GussetOptions): GussetWanted & { readonly measured?: readonly [number, number] } => {
  const { name } = options;
  const place = placeOf(options);
  const measured = options.measured === undefined ? undefined : measuredOf(options.measured);
  if (options.width !== undefined && measured)
    throw usage('cannot go with --width', '--measured', 'give one of the two');
  if (options.width === undefined && !measured)
    throw usage('how wide?', '--width', 'its base: --width 2in; or two sides of a body: --measured 48mm,54mm');
  const width = measured ? (measured[0] + measured[1]) / 2 : parseLength(options.width!, '--width');
  return {
    place,
    width,
    sides: sidesOf(options.sides),
    ...(name === undefined ? {} : { name: name.trim() }),
    ...(measured ? { measured } : {}),
  };
};

const oneSeam = (texts: readonly string[]): string => {
  const [name, ...more] = parseNames(texts, '--seam');
  if (more.length === 0) return name!;
  throw usage('a gusset goes into one seam', '--seam', `set one into ${name}, then another into ${more[0]}`);
};

const placeOf = ({ seam, below, panel, slit, length: typed }: GussetOptions): GussetPlace => {
  const length = typed === undefined ? {} : { length: lengthOf(typed, '--length') };
  if (seam !== undefined && (panel ?? slit) !== undefined)
    throw usage(
      'cannot go with --seam',
      panel === undefined ? '--slit' : '--panel',
      'a gusset goes into a seam or a slit',
    );
  if (seam !== undefined) {
    if (below === undefined && typed === undefined)
      throw usage('from where down?', '--below', 'from a level: --below waist-1in; or --length 5in up from the bottom');
    return {
      kind: 'seam',
      seam: oneSeam(seam),
      ...(below === undefined ? {} : { below: parseLevel(below, '--below') }),
      ...length,
    };
  }
  if (panel === undefined && slit === undefined)
    throw usage('where?', '--seam', 'into a seam: --seam side --below waist; or a slit: --panel P --slit waist:0.5');
  if (panel === undefined) throw usage('which panel is slit?', '--panel', 'name one: --panel side-front');
  if (slit === undefined)
    throw usage('from where down?', '--slit', 'a level and a part of its width: --slit waist:0.5');
  if (below !== undefined)
    throw usage('goes with --seam', '--below', '--slit itself names the level: --slit waist:0.5');
  return { kind: 'slit', panel: panel.trim(), ...slitOf(slit), ...length };
};

const slitOf = (text: string): { level: ReturnType<typeof parseLevel>; fraction: number } => {
  const at = text.lastIndexOf(':');
  const part = text.slice(at + 1).trim();
  const fraction = /^(?:0?\.\d+|0|1|1\.0+|0\.0+)$/.test(part) ? Number(part) : Number.NaN;
  if (at >= 0 && /^\d+(?:\.\d+)?%?$/.test(part) && !(fraction <= 1)) throw partTooLarge(text.slice(0, at), part);
  if (at < 0 || Number.isNaN(fraction))
    throw usage(
      `'${text}' is not a level and a part`,
      '--slit',
      'write --slit waist-1in:0.5, half-way from front to back',
    );
  if (fraction <= 0 || fraction >= 1)
    throw usage('runs along the edge of the panel', '--slit', 'open a seam: --seam side --below waist');
  return { level: parseLevel(text.slice(0, at), '--slit'), fraction };
};

/** `waist:50` and `waist:50%` are most likely meant for half-way. */
const partTooLarge = (level: string, part: string): StaywrightError => {
  const meant = Number.parseFloat(part) / 100;
  return usage(
    `the part is from 0 (front) to 1 (back), not ${part}`,
    '--slit',
    `write --slit ${level}:${meant > 0 && meant < 1 ? meant : 0.5}`,
  );
};

const measuredOf = (text: string): readonly [number, number] => {
  const [one, other, more] = text.split(',');
  if (one === undefined || other === undefined || more !== undefined)
    throw usage('needs two lengths', '--measured', 'as measured left and right: --measured 48mm,54mm');
  return [lengthOf(one, '--measured'), lengthOf(other, '--measured')];
};

const lengthOf = (text: string, where: string): number => {
  const length = parseLength(text, where);
  if (length > 0) return length;
  throw usage('must be more than nothing', where, 'give a length such as 5in');
};

const sidesOf = (text = 'straight'): GussetWanted['sides'] => {
  const sides = GUSSET_SIDES.find((form) => form === text);
  if (sides !== undefined) return sides;
  throw usage(`'${text}' is no form of a side`, '--sides', 'sides are straight or curved');
};
