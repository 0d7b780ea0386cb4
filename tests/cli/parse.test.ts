import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseLength } from '../../src/cli/parse-length.ts';
import { parseLevel, parseLevels } from '../../src/cli/parse-level.ts';
import { parseNames } from '../../src/cli/parse-names.ts';
import { parseNamedSettings, parseSettings } from '../../src/cli/parse-settings.ts';
import { shellWord } from '../../src/record/shell-word.ts';
import { tableText } from '../../src/cli/table-text.ts';
import { caught } from '../support/caught.ts';
import { runShell } from '../support/run-staywright.ts';

describe('a length', () => {
  // The inch is 25.4 mm by definition (1959).
  it.each([
    ['12mm', 12],
    ['1.2cm', 12],
    ['.5in', 12.7],
    ['0.5 in', 12.7],
    ['5/8in', 15.875],
    ['1 1/2in', 38.1],
    ['1-1/2in', 38.1],
    ['-0.5in', -12.7],
    ['-1-1/2in', -38.1],
    ['+3mm', 3],
    ['3MM', 3],
    ['-0mm', 0],
  ])('%s is %d mm', (text, mm) => {
    expect(parseLength(text, '--amount')).toBeCloseTo(mm, 12);
    expect(Object.is(parseLength(text, '--amount'), -0)).toBe(false);
  });

  it.each([
    ['0.5', /has no unit/],
    ['1/2', /has no unit/],
    ['', /missing/],
    ['mm', /not a length/],
    ['1/0in', /not a length/],
    ['1.2.3mm', /not a length/],
    ['1e3mm', /not a unit/],
    ['1,5cm', /not a length/],
    ['5"', /not a unit/],
    ['3ft', /not a unit/],
    ['999999in', /more than 100 m/],
    ['--3mm', /not a length/],
    ['Infinitymm', /not a length/],
  ])('%s is refused', (text, message) => {
    expect(() => parseLength(text, '--amount')).toThrow(message);
  });

  it('is read back from whatever decimal it is written with', () => {
    fc.assert(
      fc.property(fc.integer({ min: -99_999, max: 99_999 }), (thousandths) => {
        expect(parseLength(`${thousandths / 1000}mm`, 'x')).toBe(thousandths === 0 ? 0 : thousandths / 1000);
      }),
    );
  });
});

describe('a level', () => {
  it.each([
    ['waist', 'waist', 0],
    ['waist+2in', 'waist', 50.8],
    ['waist-3in', 'waist', -76.2],
    ['high-hip-1-1/2in', 'high-hip', -38.1],
    ['high-hip', 'high-hip', 0],
    ['top - 10mm', 'top', -10],
    ['taille-supérieure+1cm', 'taille-supérieure', 10],
  ])('%s', (text, name, offset) => {
    const level = parseLevel(text, '--level');
    expect(level.name).toBe(name);
    expect(level.offset).toBeCloseTo(offset, 12);
    expect(level.text).toBe(text);
  });

  it('without a name is refused', () => {
    expect(() => parseLevels('waist,', '--level')).toThrow(/names no level/);
  });

  it.each([
    ['12cm', 'waist+12cm'],
    ['1 1/2in', 'waist+1 1/2in'],
    ['+2in', 'waist+2in'],
    ['-2in', 'waist-2in'],
  ])('%s is a length: %s is offered', (typed, offered) => {
    expect(caught(() => parseLevel(typed, '--level'))).toMatchObject({
      message: `'${typed}' is a length, not a level`,
      hint: `say from which level: ${offered}`,
    });
  });
});

describe('names and settings', () => {
  it('are parted by commas, over several options', () => {
    expect(parseNames(['cb, side', 'cf'], '--seam')).toEqual(['cb', 'side', 'cf']);
    expect(() => parseNames(['cb,,side'], '--seam')).toThrow(/name is missing/);
  });

  it('keep a bare value apart from named ones, and refuse one name twice', () => {
    expect(parseSettings(['15mm', 'top=6mm'], 'x')).toEqual([{ value: '15mm' }, { name: 'top', value: '6mm' }]);
    expect(() => parseSettings(['top=6mm', 'top=7mm'], 'x')).toThrow(/'top' is given twice/);
    expect(() => parseSettings(['6mm', '7mm'], 'x')).toThrow(/two values for everything/);
    expect(() => parseSettings(['top='], 'x')).toThrow(/not complete/);
    expect(() => parseNamedSettings(['6mm'], 'x', 'a=1mm')).toThrow(/names nothing/);
  });

  it('without their names are told how they are written', () => {
    expect(caught(() => parseNamedSettings(['2,1'], '--share', 'cb=4,side=1'))).toMatchObject({
      message: "'2' names nothing",
      hint: 'write it like cb=4,side=1',
    });
  });
});

describe('a word for a shell', () => {
  it('is read by the shell as it was', async () => {
    const words = ["it's", 'a b', '$HOME', '`x`', '1 1/2in', 'waist=2in,hip=3in', '', '\\', '"', '*'];
    const ran = await runShell(`printf '%s\\n' ${words.map(shellWord).join(' ')}`);
    expect(ran.stdout).toBe(words.map((word) => `${word}\n`).join(''));
  });
});

describe('a table', () => {
  it('sets figures to the right and breaks what is over 80 columns', () => {
    const head = ['', ...Array.from({ length: 6 }, (_, at) => `a long heading ${at}`)];
    const lines = tableText(head, [['row', '1', '2', '3', '4', '5', '6']]).split('\n');
    expect(lines.every((line) => line.length <= 80)).toBe(true);
    expect(lines[1]).toMatch(/^row {17}1 {17}2/);
    expect(lines.filter((line) => line.startsWith('row'))).toHaveLength(2);
  });

  it('lines up under names in any script', () => {
    expect(
      tableText(
        ['', 'mm'],
        [
          ['前身頃', '1'],
          ['side', '2'],
        ],
      ),
    ).toBe('        mm\n前身頃   1\nside     2\n');
  });
});
