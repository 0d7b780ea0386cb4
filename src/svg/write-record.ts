import type { Change } from '../record/change.ts';

/** One JSON object a line, with every character escaped that could end or break the XML round it. */
export const writeRecord = (record: readonly Change[]): string =>
  record
    .map((change) =>
      JSON.stringify(change).replace(
        /[<>&\u007f-\u009f\u2028\u2029\ufffe\uffff]/g,
        (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`,
      ),
    )
    .join('\n');
