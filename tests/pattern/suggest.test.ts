import { expect, test } from 'vitest';
import { suggestName } from '../../src/pattern/suggest.ts';

const SPLIT = ['front-left', 'back-left', 'mid-back-left', 'front-right', 'back-right', 'mid-back-right'];

test('the name of a pair that was split means the two that it became', () => {
  expect(suggestName('mid-back', SPLIT)).toBe('did you mean mid-back-left or mid-back-right?');
  expect(suggestName('back', SPLIT)).toBe('did you mean back-left or back-right?');
});

test('a slip means the nearest name, and anything else lists them all', () => {
  expect(suggestName('frnot-left', SPLIT)).toBe('did you mean front-left?');
  expect(suggestName('sleeve', SPLIT)).toBe(`there are: ${SPLIT.join(', ')}`);
  expect(suggestName('sleeve', [])).toBe('there are none');
});

test('a beginning that many names share lists them all', () => {
  const names = ['side-1', 'side-2', 'side-3', 'side-4'];
  expect(suggestName('side', names)).toBe(`there are: ${names.join(', ')}`);
});
