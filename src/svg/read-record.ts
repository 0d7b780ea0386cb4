import { StaywrightError } from '../errors.ts';
import type { Change } from '../record/change.ts';

const isNumberOrNull = (value: unknown): boolean => value === null || typeof value === 'number';

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const isChange = (value: unknown): value is Change =>
  isObject(value) &&
  typeof value['command'] === 'string' &&
  typeof value['version'] === 'string' &&
  (value['before'] === null || typeof value['before'] === 'string') &&
  typeof value['after'] === 'string' &&
  (value['other'] === undefined || typeof value['other'] === 'string') &&
  isObject(value['girth_mm']) &&
  Object.values(value['girth_mm']).every(
    (girth) => isObject(girth) && isNumberOrNull(girth['before']) && typeof girth['after'] === 'number',
  );

const parse = (text: string): unknown => {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
};

/** The record of changes: one JSON object a line. Throws an `input` error for a line that is not a change. */
export const readRecord = (text: string, where: string): Change[] =>
  text
    .split('\n')
    .map((each) => each.trim())
    .filter((each) => each !== '')
    .map((each, i) => {
      const change = parse(each);
      if (isChange(change)) return change;
      throw new StaywrightError('input', `line ${i + 1} of the record of changes cannot be read`, {
        where,
        hint: 'take the file as staywright wrote it; the record is not meant to be edited',
      });
    });
