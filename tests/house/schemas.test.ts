import { readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { bodySchema } from '../../src/commands/body-file.ts';
import { labelSchema } from '../../src/commands/answers-file.ts';

const published = [
  { file: 'label-answers.schema.json', schema: labelSchema },
  { file: 'body.schema.json', schema: bodySchema },
] as const;

describe('the published schemas', () => {
  it.each(published)('$file says what is checked', ({ file, schema }) => {
    const place = new URL(`../../shared/${file}`, import.meta.url);
    const made: unknown = z.toJSONSchema(schema);
    if (process.env['UPDATE'] === '1') writeFileSync(place, `${JSON.stringify(made, null, 2)}\n`);
    expect(JSON.parse(readFileSync(place, 'utf8'))).toEqual(made);
    expect(process.env['UPDATE'], 'read what was written, then run again without UPDATE').toBeUndefined();
  });
});
