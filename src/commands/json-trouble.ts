import type { z } from 'zod';
import { nearestName } from '../pattern/suggest.ts';

/** What is wrong with a JSON document, in a maker's words, and the key that was likely meant. */
export interface JsonTrouble {
  readonly message: string;
  readonly near?: string;
}

const KINDS: Readonly<Record<string, string>> = {
  string: 'a text in quotes',
  number: 'a plain number',
  array: 'a list in [ ]',
  tuple: 'a list of two in [ ]',
  object: 'a group in { }',
  record: 'a group in { }',
};

/** The first trouble: a key that is near a known one tells most, then keys that are missing, then whatever else. */
export const jsonTrouble = (error: z.ZodError, json: unknown, keys: readonly string[]): JsonTrouble => {
  const issues = error.issues.flatMap(opened);
  for (const issue of issues) {
    if (issue.code !== 'unrecognized_keys') continue;
    for (const key of issue.keys) {
      if (keys.includes(key)) return { message: `'${placed(issue, key)}' does not go with what stands beside it` };
      const near = nearestName(key, keys);
      if (near !== undefined) return { message: `'${placed(issue, key)}' is not known`, near };
    }
  }
  const missing = issues.filter((issue) => issue.code === 'invalid_type' && valueAt(json, issue.path) === undefined);
  if (missing.length > 0) {
    const names = missing.map((issue) => `'${issue.path.join('.')}'`);
    return { message: `${names.join(' and ')} ${names.length === 1 ? 'is' : 'are'} missing` };
  }
  return { message: words(issues[0]!) };
};

/** Of forms that a value may have, what is wrong with the one that it comes near. */
const opened = (issue: z.core.$ZodIssue): readonly z.core.$ZodIssue[] => {
  if (issue.code !== 'invalid_union') return [issue];
  const [near] = issue.errors
    .filter((form) => form.some(({ code, path }) => code !== 'invalid_type' || path.length > 0))
    .toSorted((a, b) => strangeKeys(a) - strangeKeys(b));
  return near?.map((inner) => ({ ...inner, path: [...issue.path, ...inner.path] })) ?? [issue];
};

const strangeKeys = (form: readonly z.core.$ZodIssue[]): number =>
  form.reduce((sum, issue) => sum + (issue.code === 'unrecognized_keys' ? issue.keys.length : 0), 0);

const placed = ({ path }: z.core.$ZodIssue, key: string): string => [...path, key].join('.');

const valueAt = (json: unknown, path: readonly PropertyKey[]): unknown =>
  path.reduce<unknown>((value, key) => (value as Record<PropertyKey, unknown> | null)?.[key], json);

const words = (issue: z.core.$ZodIssue): string => {
  const place = issue.path.length === 0 ? '' : `${issue.path.join('.')}: `;
  if (issue.code === 'unrecognized_keys') return `'${placed(issue, issue.keys[0]!)}' is not known`;
  if (issue.code === 'invalid_type') return `${place}must be ${KINDS[issue.expected] ?? issue.expected}`;
  if (issue.code === 'invalid_value') return `${place}must be ${issue.values.map(String).join(' or ')}`;
  if (issue.code === 'too_small') return `${place}has too little in it`;
  if (issue.code === 'invalid_union') return `${place}is neither a text in quotes nor a group in { }`;
  return `${place}${issue.message}`;
};
