import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Change } from '../../src/record/change.ts';
import { joinSheets, type NamedSheet } from '../../src/svg/join-sheets.ts';
import { panelSheets } from '../../src/svg/panel-sheets.ts';
import type { Sheet } from '../../src/svg/sheet.ts';
import { boxPattern } from '../support/box-pattern.ts';
import { anySheet, withoutTexts } from './arbitrary-sheet.ts';
import { complaintOf, sheetOf } from './drawn-svg.ts';

const CHANGE: Change = { command: 'label', version: '0.1.0', before: null, after: 'a', girth_mm: {} };
const SHEET: Sheet = { pattern: boxPattern(3), record: [CHANGE], art: '<text>all</text>' };

const filesOf = (sheet: Sheet): NamedSheet[] =>
  panelSheets(sheet).map(({ name, text }) => ({ name: `${name}.svg`, sheet: sheetOf(text) }));
const [FIRST, SECOND, THIRD] = filesOf(SHEET) as [NamedSheet, NamedSheet, NamedSheet];
const complaint = (files: readonly NamedSheet[]): string => complaintOf(() => joinSheets(files));

describe('a folder of sheets', () => {
  it('holds a file a panel and joins to the same sheet, whatever order the files come in', () => {
    expect([FIRST, SECOND, THIRD].map(({ name }) => name)).toEqual(['panel-1.svg', 'panel-2.svg', 'panel-3.svg']);
    expect(withoutTexts(joinSheets([THIRD, FIRST, SECOND]))).toEqual(SHEET);
    fc.assert(
      fc.property(anySheet, (sheet) => {
        expect(withoutTexts(joinSheets(filesOf(sheet).toReversed()))).toEqual(sheet);
      }),
      { numRuns: 30 },
    );
  });

  it('refuses files whose records differ, and names them', () => {
    const later = { ...SECOND, sheet: { ...SECOND.sheet, record: [CHANGE, CHANGE] } };
    expect(complaint([FIRST, later, THIRD])).toBe(
      'input: panel-2.svg: its record of changes differs from that of panel-1.svg',
    );
  });

  it('refuses what does not belong together or is not whole', () => {
    expect(complaint([])).toMatch(/there is no sheet to read$/);
    expect(complaint([FIRST, THIRD])).toBe('input: panel-1.svg: of the 3 panels, number 2 is missing beside it');
    expect(complaint([FIRST, SECOND, { ...SECOND, name: 'copy.svg' }, THIRD])).toBe(
      'input: copy.svg: it is panel 2 of 3, and so is panel-2.svg',
    );
    const { part: _, ...whole } = SECOND.sheet;
    expect(complaint([FIRST, { name: 'whole.svg', sheet: whole }])).toBe(
      'input: whole.svg: this is a whole pattern, so panel-1.svg beside it cannot belong to it',
    );
    expect(joinSheets([{ name: 'whole.svg', sheet: whole }])).toBe(whole);
    const single = { ...SECOND.sheet, pattern: { ...SECOND.sheet.pattern, pieces: 'single' as const } };
    expect(complaint([FIRST, { name: 'b.svg', sheet: single }, THIRD])).toBe(
      'input: b.svg: its name, pieces or units differ from those of panel-1.svg',
    );
  });

  it('gives every panel a file name that any system can hold', () => {
    const names = ['../../etc/passwd', 'a/b', 'a:b', 'Front', 'front', 'con', '...', 'x '.repeat(90), 'überzieher 日'];
    const [panel] = SHEET.pattern.panels;
    const panels = names.map((name) => Object.assign({}, panel, { name }));
    expect(panelSheets({ ...SHEET, pattern: { ...SHEET.pattern, panels } }).map(({ name }) => name)).toEqual([
      '__.._etc_passwd',
      'a_b',
      'a_b-2',
      'Front',
      'front-2',
      'con_',
      '_',
      `${'x '.repeat(29)}x_`,
      'überzieher 日',
    ]);
  });
});
