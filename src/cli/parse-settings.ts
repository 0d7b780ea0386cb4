import { StaywrightError } from '../errors.ts';

/** One `NAME=VALUE`, or a bare VALUE that stands for everything. */
export interface Setting {
  readonly name?: string;
  readonly value: string;
}

/** Splits `cb=4,side=1`, `top=6mm` or a bare `15mm`; the same name twice is refused. */
export const parseSettings = (texts: readonly string[], where: string): Setting[] => {
  const settings = settingsOf(texts, where);
  refuseTwice(settings, where);
  return settings;
};

const settingsOf = (texts: readonly string[], where: string): Setting[] =>
  texts.flatMap((text) => text.split(',')).map((part) => settingOf(part, where));

const refuseTwice = (settings: readonly Setting[], where: string): void => {
  const names = settings.map((setting) => setting.name ?? '');
  const twice = names.find((name, at) => names.indexOf(name) !== at);
  if (twice === undefined) return;
  throw new StaywrightError('usage', twice === '' ? 'two values for everything' : `'${twice}' is given twice`, {
    where,
    hint: twice === '' ? 'give one for all, and others by name: NAME=VALUE' : 'leave one of the two out',
  });
};

/** As `parseSettings`, where a value without a name means nothing. */
export const parseNamedSettings = (texts: readonly string[], where: string, like: string): Required<Setting>[] => {
  const settings = settingsOf(texts, where).map(({ name, value }) => {
    if (name === undefined) {
      throw new StaywrightError('usage', `'${value}' names nothing`, { where, hint: `write it like ${like}` });
    }
    return { name, value };
  });
  refuseTwice(settings, where);
  return settings;
};

const settingOf = (part: string, where: string): Setting => {
  const at = part.indexOf('=');
  const name = part.slice(0, Math.max(at, 0)).trim();
  const value = part.slice(at + 1).trim();
  if (value === '' || (at >= 0 && name === '')) {
    throw new StaywrightError('usage', `'${part.trim()}' is not complete`, { where, hint: 'write it as NAME=VALUE' });
  }
  return at < 0 ? { value } : { name, value };
};
