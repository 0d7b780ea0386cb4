import { spawnSync } from 'node:child_process';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { shellWord } from '../../src/record/shell-word.ts';
import { shellWords } from '../../src/record/shell-words.ts';

const word = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 12 }),
  fc.string({ unit: fc.constantFrom("'", '"', '\\', '$', '`', ' ', '\n', '*', 'a', '-', '日', '') }),
);

describe('the words of a recorded command', () => {
  it('are those that were quoted and joined', () => {
    fc.assert(
      fc.property(fc.array(word), (words) => {
        expect(shellWords(words.map(shellWord).join(' '))).toEqual(words);
      }),
    );
  });

  it('are those that a shell reads', () => {
    const usable = fc.string({ unit: fc.constantFrom("'", '"', '\\', '$HOME', '`', ' ', '\n', '*', '~', '#', 'é') });
    const words = fc.sample(fc.array(usable, { minLength: 1 }), 60).flat();
    const text = words.map(shellWord).join(' ');
    const { stdout } = spawnSync('sh', ['-c', `printf '%s\\0' ${text}`], { encoding: 'utf8' });
    expect(stdout.split('\0').slice(0, -1)).toEqual(words);
    expect(shellWords(text)).toEqual(words);
  });

  it.each([
    ['take-in --seam cb --amount 1/4in', ['take-in', '--seam', 'cb', '--amount', '1/4in']],
    ["label --name 'the queen'\\''s stays'", ['label', '--name', "the queen's stays"]],
    ["a''b '' c\\ d", ['ab', '', 'c d']],
    ['', []],
    ['  spaced   out ', ['spaced', 'out']],
  ])('%s', (text, words) => {
    expect(shellWords(text)).toEqual(words);
  });

  it.each([
    "open 'quote",
    'a; b',
    'a | b',
    'a > b',
    '$HOME',
    '`a`',
    'a\nb',
    'a\tb',
    '"a"',
    '*',
    '~',
    '{a,b}',
    '# a',
    'a\\',
  ])('are not to be had of %j, which is more than words', (text) => {
    expect(shellWords(text)).toBeUndefined();
  });
});
