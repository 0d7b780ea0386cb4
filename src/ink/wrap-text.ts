import { setText } from './set-text.ts';
import type { Weight } from './typefaces.ts';

/**
 * The text in lines no wider than `width` millimetres: broken between words (not at a no-break space), or within a word that alone is wider.
 * Lines past `most` are dropped and the last one ends with an ellipsis.
 */
export const wrapText = (
  text: string,
  size: number,
  width: number,
  most = 50,
  weight: Weight = 'regular',
): string[] => {
  const fits = (line: string): boolean => setText(line, weight).width * size <= width;
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/[^\S\u00a0]+/).filter(Boolean)) {
    const longer = line ? `${line} ${word}` : word;
    if (fits(longer)) {
      line = longer;
      continue;
    }
    if (line) lines.push(line);
    line = '';
    for (const character of word) {
      if (line && !fits(line + character)) {
        lines.push(line);
        line = '';
      }
      line += character;
    }
  }
  if (line) lines.push(line);
  if (lines.length <= most) return lines;
  let last = lines[most - 1]!;
  while (last && !fits(`${last}…`)) last = [...last].slice(0, -1).join('');
  return [...lines.slice(0, most - 1), `${last}…`];
};
