import type { Change } from '../record/change.ts';

/** A line of JSON with every character escaped that could end or break the XML round it. */
const lineOf = (value: object): string =>
  JSON.stringify(value).replace(
    /[<>&\u007f-\u009f\u2028\u2029\ufffe\uffff]/g,
    (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );

/**
 * One JSON object a line: first the changes of the whole pattern, then a line for each of `panels` with the changes below it whose first
 * panel it is. So two people who change different panels add their lines at different places, and git joins them. Nothing where
 * there is no change.
 */
export const writeRecord = (record: readonly Change[], panels: readonly string[]): string => {
  if (record.length === 0) return '';
  const homes = record.map((change) => change.panels?.find((name) => panels.includes(name)));
  const linesAt = (home: string | undefined): string[] => record.filter((_, at) => homes[at] === home).map(lineOf);
  return [...linesAt(undefined), ...panels.flatMap((panel) => [lineOf({ panel }), ...linesAt(panel)])].join('\n');
};
