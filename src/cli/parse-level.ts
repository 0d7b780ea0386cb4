import { StaywrightError } from '../errors.ts';
import type { LevelRef } from '../pattern/level-ref.ts';
import { parseLength } from './parse-length.ts';

const BARE_LENGTH = /^[+-]?\s*[\d.][\d.\s/-]*(mm|cm|in)$/i;

/** A level as typed: `waist`, `waist+2in` (above it), `waist-3in` (below), `top`, `bottom`. */
export const parseLevel = (text: string, where: string): LevelRef => {
  const typed = text.trim();
  if (BARE_LENGTH.test(typed)) {
    throw new StaywrightError('usage', `'${typed}' is a length, not a level`, {
      where,
      hint: `say from which level: waist${/^[+-]/.test(typed) ? '' : '+'}${typed}`,
    });
  }
  const [, name = typed, sign, length] = /^(.*?)\s*([+-])\s*([\d.].*)$/.exec(typed) ?? [];
  if (name === '') {
    throw new StaywrightError('usage', `'${typed}' names no level`, {
      where,
      hint: 'a level is like waist, waist+2in or top',
    });
  }
  if (sign === undefined || length === undefined) return { name, offset: 0, text: typed };
  const up = parseLength(length, where);
  return { name, offset: sign === '-' ? -up : up, text: typed };
};

/** Levels parted by commas. */
export const parseLevels = (text: string, where: string): LevelRef[] =>
  text.split(',').map((part) => parseLevel(part, where));
