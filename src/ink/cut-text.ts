import type { Weight } from './typefaces.ts';
import { wordsWidth } from './words-box.ts';

/** The text on one line no wider than `width` millimetres: where it is longer an ellipsis stands for its middle, so that beginning and end are read. */
export const cutText = (text: string, size: number, width: number, weight: Weight = 'regular'): string => {
  if (wordsWidth(text, size, weight) <= width) return text;
  const letters = [...text];
  const keeping = (count: number): string =>
    `${letters.slice(0, Math.ceil(count / 2)).join('')}…${letters.slice(letters.length - Math.floor(count / 2)).join('')}`;
  let [fits, tooMany] = [0, letters.length];
  while (tooMany - fits > 1) {
    const count = Math.floor((fits + tooMany) / 2);
    if (wordsWidth(keeping(count), size, weight) <= width) fits = count;
    else tooMany = count;
  }
  return keeping(fits);
};
