import type { LabelAnswers, CornerAnswer, LevelAnswer } from '../labelling/label-answers.ts';
import { isName } from '../labelling/check-answers.ts';
import { CORNER_NAMES } from '../labelling/label-answers.ts';
import { parseLength } from '../cli/parse-length.ts';
import { parseLevel } from '../cli/parse-level.ts';
import { parseNames } from '../cli/parse-names.ts';
import { parseNamedSettings } from '../cli/parse-settings.ts';
import { StaywrightError } from '../errors.ts';
import { SIDES } from '../pattern/panel.ts';
import { suggestName } from '../pattern/suggest.ts';

/** The options of label as typed, or as its answers file says them. */
export type LabelOptions = {
  readonly name?: string | undefined;
  readonly line?: string | undefined;
  readonly panels?: string[] | undefined;
  readonly seams?: string[] | undefined;
  readonly level?: string[] | undefined;
  readonly pieces?: string | undefined;
  readonly units?: string | undefined;
  readonly cf?: string | undefined;
  readonly flip?: string[] | undefined;
  readonly turn?: string[] | undefined;
  readonly corner?: string[] | undefined;
};

export const LINES = ['cutting', 'stitching'] as const;
export const PIECES = ['pairs', 'single'] as const;

/** The answers that the options give; only `--line`, `--panels` and `--seams` have no default. */
export const labelAnswers = (options: LabelOptions): LabelAnswers => ({
  ...(options.name === undefined ? {} : { name: nameOf(options.name) }),
  line: oneOf(
    required(
      options.line,
      '--line',
      'is the drawn line where you cut or where you sew? --line cutting or --line stitching',
    ),
    LINES,
    '--line',
  ),
  panels: parseNames(
    required(options.panels, '--panels', 'from centre front to back: --panels front,side,back'),
    '--panels',
  ),
  seams: parseNames(
    required(options.seams, '--seams', 'one more than the panels: --seams cf,front-side,back-side,cb'),
    '--seams',
  ),
  pieces: oneOf(options.pieces ?? 'pairs', PIECES, '--pieces'),
  units: oneOf(options.units ?? 'mm', ['mm', 'in'], '--units'),
  centreFront: oneOf(options.cf ?? 'left', SIDES, '--cf'),
  flip: parseNames(options.flip ?? [], '--flip'),
  turn: turnsOf(options.turn ?? []),
  corners: (options.corner ?? []).map(cornerOf),
  levels: (options.level ?? []).map(levelOf),
});

/** Without blanks round it, as the record keeps it. */
const nameOf = (typed: string): string => {
  const name = typed.trim();
  if (name !== '') return name;
  throw new StaywrightError('usage', 'holds no name', { where: '--name', hint: "leave it out for the file's own" });
};

const required = <Value>(value: Value | undefined, where: string, hint: string): Value => {
  if (value !== undefined) return value;
  throw new StaywrightError('usage', 'is not said', { where, hint });
};

const oneOf = <Word extends string>(typed: string, words: readonly Word[], where: string): Word => {
  const word = words.find((known) => known === typed);
  if (word !== undefined) return word;
  throw new StaywrightError('usage', `'${typed}' is not ${words.join(' or ')}`, {
    where,
    hint: suggestName(typed, words),
  });
};

const turnsOf = (texts: readonly string[]): Record<string, number> =>
  Object.fromEntries(
    parseNamedSettings(texts, '--turn', 'front=180').map(({ name, value }) => {
      const degrees = /^[+-]?\d+(\.\d+)?$/.test(value) ? Number(value) : Number.NaN;
      if (Number.isFinite(degrees)) return [name, (degrees * Math.PI) / 180];
      throw new StaywrightError('usage', `'${value}' is not a number of degrees`, {
        where: '--turn',
        hint: 'write front=180',
      });
    }),
  );

/** `front=top-back:120mm,45mm`, measured on the drawing from its upper left. */
const cornerOf = (text: string): CornerAnswer => {
  const [, panel = '', name = '', x = '', y = ''] = /^([^=]+)=([^:=]+):([^,]+),([^,]+)$/.exec(text.trim()) ?? [];
  if (panel === '') {
    throw new StaywrightError('usage', `'${text}' is not a corner`, {
      where: '--corner',
      hint: 'write front=top-back:120mm,45mm, from the upper left of the drawing',
    });
  }
  const corner = oneOf(name.trim(), CORNER_NAMES, '--corner');
  return { panel: panel.trim(), corner, at: { x: parseLength(x, '--corner'), y: parseLength(y, '--corner') } };
};

/** `bust=waist+7in`, or `waist=front:210mm,side:204mm`; a name alone is a level that is drawn. */
const levelOf = (text: string): LevelAnswer => {
  const at = text.indexOf('=');
  if (at < 0 && isName(text.trim())) return { name: text.trim(), down: {} };
  const name = text.slice(0, Math.max(at, 0)).trim();
  const value = text.slice(at + 1).trim();
  if (name === '' || value === '') {
    throw new StaywrightError('usage', `'${text}' is not a level`, {
      where: '--level',
      hint: 'write bust=waist+7in, or waist=front:210mm,side:204mm from the highest point down, or ribs alone where it is drawn',
    });
  }
  if (!value.includes(':')) return { name, from: parseLevel(value, '--level') };
  const down = value.split(',').map((part) => {
    const colon = part.lastIndexOf(':');
    return [part.slice(0, Math.max(colon, 0)).trim(), parseLength(part.slice(colon + 1), '--level')] as const;
  });
  const names = down.map(([panel]) => panel);
  const twice = names.find((panel, index) => names.indexOf(panel) !== index);
  if (names.includes('') || twice !== undefined) {
    throw new StaywrightError('usage', twice ? `${twice} is given twice` : 'a panel name is missing', {
      where: '--level',
      hint: `write ${name}=front:210mm,side:204mm`,
    });
  }
  return { name, down: Object.fromEntries(down) };
};
