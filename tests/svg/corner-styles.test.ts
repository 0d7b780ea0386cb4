import { expect, it } from 'vitest';
import { addAllowance } from '../../src/alterations/add-allowance.ts';
import { redrawCutting } from '../../src/alterations/allowance/redraw-cutting.ts';
import { writeSheet } from '../../src/svg/write-sheet.ts';
import { boxPattern } from '../support/box-pattern.ts';
import { sheetOf } from './drawn-svg.ts';

const written = writeSheet({
  pattern: addAllowance(boxPattern(1), { all: 15, byEdge: {} }, { default: 'mitre', bottom: 'folded' }).pattern,
  record: [],
});

it('how corners are cut is kept in the sheet, so that the cutting line can be drawn again', () => {
  expect(written).toContain('data-edge="bottom" data-allowance="15mm" data-corners="folded"');
  const [panel] = sheetOf(written).pattern.panels;
  expect(panel!.edges.map((edge) => edge.corners)).toEqual([undefined, undefined, 'folded', undefined]);
  expect(redrawCutting(panel!).cutting).toEqual(panel!.cutting);
});

it('an unknown way to cut corners is refused', () => {
  expect(() => sheetOf(written.replace('"folded"', '"round"'))).toThrow(
    'panel panel-1: edge bottom: data-corners must be mitre, square, folded',
  );
});
