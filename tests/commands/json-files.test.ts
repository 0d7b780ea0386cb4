import { describe, expect, it } from 'vitest';
import { labelFlags } from '../../src/commands/answers-file.ts';
import { parseBody } from '../../src/commands/body-file.ts';
import { gap } from '../../src/commands/gap.ts';
import { label } from '../../src/commands/label.ts';
import { caught } from '../support/caught.ts';

/** The JSON in a command's help, under the line that says which file it is. */
const sampleOf = ({ sample = [] }: { readonly sample?: readonly string[] }): unknown =>
  JSON.parse(sample.slice(1).join('\n'));

describe('the file forms that help shows', () => {
  it('are read as they stand', () => {
    expect(
      parseBody(sampleOf(gap), 'body.json').levels.map(({ level, girth }) => [level, Number(girth.toFixed(6))]),
    ).toEqual([
      ['bust', 914.4],
      ['waist', 711.2],
      ['hip', 977.9],
    ]);
    expect(labelFlags(sampleOf(label), 'answers.json')).toMatchObject({
      line: 'cutting',
      level: ['bust=waist+7in', 'waist=front:210mm,side:204mm,back:198mm'],
    });
  });
});

describe('a body file', () => {
  const levels = { waist: '28in' };
  it.each([
    [{ bust: '58cm' }, "'name' and 'levels' are missing", /^a body is like \{/],
    [{ name: 'Ada', level: levels }, "'level' is not known", /^did you mean levels\?$/],
    [
      { name: 'Ada', levels: { waist: { grith: '28in' } } },
      "'levels.waist.grith' is not known",
      /^did you mean girth\?$/,
    ],
    [{ name: 'Ada', levels: { waist: { gap: '2in' } } }, "'levels.waist.girth' is missing", /^a body is like/],
    [{ name: 'Ada', levels: { waist: { left: '345mm' } } }, "'levels.waist.right' is missing", /^a body is like/],
    [
      { name: 'Ada', levels: { waist: { left: 345, right: '355mm' } } },
      'levels.waist.left: must be a text in quotes',
      /^a body is like/,
    ],
    [
      { name: 'Ada', levels: { waist: { girth: '700mm', left: '345mm', right: '355mm' } } },
      "'levels.waist.girth' does not go with what stands beside it",
      /^a body is like/,
    ],
    [{ name: 'Ada', levels: { waist: 28 } }, 'levels.waist: is neither a text in quotes nor a group in { }', /^a body/],
    [{ name: 'Ada', levels, size: 3 }, "'size' is not known", /^a body is like/],
    [{ name: 7, levels }, 'name: must be a text in quotes', /^a body is like/],
    [{ name: 'Ada', levels: {} }, 'levels: no level is given', /^a body is like/],
    [[], 'must be a group in { }', /^a body is like/],
  ])('%j is refused in plain words', (json, message, hint) => {
    const error = caught(() => parseBody(json, 'body.json'));
    expect(error).toMatchObject({ message, where: 'body.json' });
    expect(error.hint).toMatch(hint);
  });
});

describe('an answers file', () => {
  it.each([
    [{ level: { bust: 'waist+7in' } }, "'level' is not known", 'did you mean levels?'],
    [{ line: 'cut' }, 'line: must be cutting or stitching', 'staywright help label shows what such a file holds'],
    [{ panels: 'front' }, 'panels: must be a list in [ ]', 'staywright help label shows what such a file holds'],
  ])('%j is refused in plain words', (json, message, hint) => {
    expect(caught(() => labelFlags(json, 'answers.json'))).toMatchObject({ message, hint, where: 'answers.json' });
  });
});
