import { expect, it } from 'vitest';
import { cutText } from '../../src/ink/cut-text.ts';
import { wordsWidth } from '../../src/ink/words-box.ts';

const command = `take-in --seam ${Array.from({ length: 23 }, (_, at) => `seam-${at + 1}`).join(',')},cb --amount 4mm`;

it('leaves a line that fits as it is', () => {
  expect(cutText('take-in --seam cb --amount 4mm', 3.8, 170)).toBe('take-in --seam cb --amount 4mm');
});

it.each([170, 60, 12])('cuts the middle out of a long line and fills %i mm with its beginning and its end', (width) => {
  const cut = cutText(command, 3.8, width);
  const [start = '', end = ''] = cut.split('…');
  expect(command.startsWith(start) && command.endsWith(end)).toBe(true);
  expect(Math.abs([...start].length - [...end].length)).toBeLessThanOrEqual(1);
  expect(wordsWidth(cut, 3.8)).toBeLessThanOrEqual(width);
  expect(wordsWidth(cut, 3.8)).toBeGreaterThan(width - 2 * 3.8);
});
