import { describe, expect, it } from 'vitest';
import type { Change } from '../../src/record/change.ts';
import { lastJoined } from '../../src/record/last-joined.ts';

/** `2 a>b`: a step that made b of a. */
const recordOf = (text: string): Change[] =>
  text.split(', ').map((line) => {
    const [, step, before, after] = /^(\d) (\w)>(\w)$/.exec(line)!;
    return { command: 'x', version: '0.1.0', step: Number(step), before: before!, after: after!, girth_mm: {} };
  });

describe('versions that were joined last', () => {
  it.each([
    ['nothing was joined', '1 a>b, 2 b>c', []],
    ['one step each', '1 a>b, 2 b>c, 2 b>d', [2]],
    ['two steps of one of them', '1 a>b, 2 b>c, 2 b>d, 3 c>e', [2]],
    ['a step on both since', '1 a>b, 2 b>c, 2 b>d, 3 e>f', []],
    ['joined again since', '1 a>b, 2 b>c, 2 b>d, 3 e>f, 3 e>g', [3]],
    ['joined again, and a step since', '1 a>b, 2 b>c, 2 b>d, 3 e>f, 3 e>g, 4 h>i, 5 i>k', []],
    ['one of them parted and was joined itself', '1 a>b, 2 b>c, 2 b>d, 3 d>e, 3 d>f', [2, 3]],
    ['no step at all but these', '1 a>b, 1 a>c', [1]],
  ])('are found where %s', (_, text, steps) => {
    expect(lastJoined(recordOf(text)).map(({ step }) => step)).toEqual(steps);
  });
});
