import { describe, expect, it } from 'vitest';
import { drawMeasures } from '../../src/cli/draw-measures.ts';
import { parseLevel } from '../../src/cli/parse-level.ts';
import { boxPattern } from '../support/box-pattern.ts';

const drawn = (level: string, says: string[] = []): string[] =>
  drawMeasures(boxPattern(2), [{ level: parseLevel(level, '--level'), says }], 'mm').panels.map(({ art }) => art!);

const texts = (art: string): (readonly [string, number])[] =>
  [...art.matchAll(/ y="([-\d.]+)">([^<]*)<\/text>/g)].map(([, y, text]) => [text!, Number(y)]);

describe('measures drawn on a sheet', () => {
  it('stand below the line of a named level, whose name the sheet writes above it', () => {
    const [first, second] = drawn('waist', ['round the body', '320.00 mm']);
    expect(texts(first!).map(([text]) => text)).toEqual(['80.00 mm', 'round the body', '320.00 mm']);
    for (const [, y] of texts(first!)) expect(y).toBeGreaterThan(3);
    expect(texts(second!)).toEqual([['80.00 mm', 4]]);
  });

  it('name a level that the sheet does not', () => {
    expect(texts(drawn('waist+20mm')[1]!)).toEqual([
      ['waist+20mm', -21.5],
      ['80.00 mm', -16],
    ]);
  });

  it('have white of their own that stays within the panel, and one kind of letter', () => {
    const [first] = drawn('waist', ['a line that is far too long for so narrow a panel as this one is']);
    const [, x, width] = /<rect x="([-\d.]+)" y="1" width="([-\d.]+)"/.exec(first!)!.map(Number);
    expect(x).toBeGreaterThan(0);
    expect(x! + width!).toBeLessThan(80);
    expect(first!.match(/font-family="sans-serif"/g)).toHaveLength(texts(first!).length);
  });
});
