import { StaywrightError } from '../errors.ts';
import type { Change } from '../record/change.ts';
import { stepOf } from '../record/step-of.ts';

const isNumberOrNull = (value: unknown): boolean => value === null || typeof value === 'number';

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const isNames = (value: unknown): boolean => Array.isArray(value) && value.every((name) => typeof name === 'string');

/** The line that stands before the changes of one panel. */
const isPanel = (value: unknown): boolean =>
  isObject(value) && typeof value['panel'] === 'string' && value['command'] === undefined;

const isChange = (value: unknown): value is Change =>
  isObject(value) &&
  typeof value['command'] === 'string' &&
  typeof value['version'] === 'string' &&
  (value['step'] === undefined || (Number.isSafeInteger(value['step']) && Number(value['step']) > 0)) &&
  (value['panels'] === undefined || isNames(value['panels'])) &&
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

/** Line ends, and blanks for which another program has exchanged them; within a JSON string no such quote stands bare. */
const BETWEEN = /\n|(?<=\})\s+(?=\{"(?:command|panel)":)/;

/**
 * The record of changes in the order in which they were made: one JSON object a line, under lines that name panels. Changes of one number,
 * made apart, stay as they stand. Throws an `input` error for a line that is neither.
 */
export const readRecord = (text: string, where: string): Change[] =>
  text
    .split(BETWEEN)
    .map((each) => each.trim())
    .filter((each) => each !== '')
    .flatMap((each, i) => {
      const value = parse(each);
      if (isPanel(value)) return [];
      if (isChange(value)) return [value];
      throw new StaywrightError('input', `line ${i + 1} of the record of changes cannot be read`, {
        where,
        hint: 'take the file as staywright wrote it; the record is not meant to be edited',
      });
    })
    .map((change, at) => ({ change, step: stepOf(change, at) }))
    .toSorted((a, b) => a.step - b.step)
    .map(({ change }) => change);
