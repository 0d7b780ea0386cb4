import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const src = fileURLToPath(new URL('../../src', import.meta.url));

/** What each folder may import besides itself and the errors. */
const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = {
  geometry: [],
  pattern: ['geometry'],
  record: ['pattern', 'geometry'],
  measure: ['pattern', 'geometry'],
  alterations: ['pattern', 'geometry'],
  labelling: ['pattern', 'geometry'],
  ink: ['geometry'],
  svg: ['record', 'ink', 'pattern', 'geometry'],
  print: ['ink', 'pattern', 'geometry'],
  picture: ['ink', 'pattern', 'geometry'],
  scan: ['pattern', 'geometry'],
  cli: ['svg', 'print', 'picture', 'ink', 'record', 'measure', 'pattern', 'geometry'],
  commands: [
    'cli',
    'svg',
    'print',
    'picture',
    'ink',
    'scan',
    'record',
    'measure',
    'alterations',
    'labelling',
    'pattern',
    'geometry',
  ],
};

const PURE = ['geometry', 'pattern', 'alterations', 'measure', 'labelling'];

const files = readdirSync(src, { recursive: true, encoding: 'utf8' })
  .filter((file) => file.endsWith('.ts'))
  .map((file) => ({ file, text: readFileSync(join(src, file), 'utf8') }));

const importsOf = (text: string): string[] =>
  [...text.matchAll(/(?:from|import)\s*\(?\s*'([^']+)'/g)].map((found) => found[1]!);

describe('the folders of src', () => {
  it('import one way only', () => {
    const wrong = files.flatMap(({ file, text }) => {
      const room = file.split(sep)[0]!;
      const allowed = MAY_IMPORT[room];
      if (allowed === undefined) return [];
      return importsOf(text)
        .filter((name) => name.startsWith('.'))
        .map((name) => relative(src, join(src, dirname(file), name)))
        .filter((name) => !name.startsWith(`${room}${sep}`) && name !== 'errors.ts' && !name.startsWith('..'))
        .filter((name) => !allowed.includes(name.split(sep)[0]!))
        .map((name) => `${file} imports ${name}`);
    });
    expect(wrong).toEqual([]);
  });

  it('keep input, output, clock and chance out of the pure ones', () => {
    const wrong = files
      .filter(({ file }) => PURE.includes(file.split(sep)[0]!))
      .flatMap(({ file, text }) =>
        [/'node:/, /\bconsole\./, /\bDate\b/, /Math\.random/, /\bprocess\./]
          .filter((sign) => sign.test(text))
          .map((sign) => `${file}: ${sign}`),
      );
    expect(wrong).toEqual([]);
  });

  it('hold no file over 300 lines, but for geometry that says why', () => {
    const wrong = files
      .filter(({ file, text }) => text.split('\n').length > 301 && !file.startsWith('geometry'))
      .map(({ file }) => file);
    expect(wrong).toEqual([]);
  });

  it('keep bare epsilons in tolerance.ts', () => {
    const wrong = files
      .filter(({ file }) => file.startsWith('geometry') && !file.endsWith('tolerance.ts'))
      .filter(({ text }) => /[^a-zA-Z0-9_.]1e-\d+/.test(text))
      .map(({ file }) => file);
    expect(wrong).toEqual([]);
  });
});
