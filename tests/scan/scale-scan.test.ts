/** A scan is taken for what its square and its panels show it to be, and a scale that cannot be right is told. */
import { describe, expect, it } from 'vitest';
import { oddSetting } from '../../src/scan/scale/odd-setting.ts';
import { scaleScan, tracePanels } from '../../src/scan/trace-picture.ts';
import type { ScanScale } from '../../src/scan/traced.ts';
import { makeScan } from '../support/scans/make-scan.ts';
import { tinySheet } from '../support/scans/tiny-sheet.ts';

describe('a printed sheet with a dark lid beside it', () => {
  it.each([{}, { dpi: 200 }])('is still printed outlines, %j typed', async (typed) => {
    const window = { x: -8, y: 0, width: 69, height: 66 };
    const spec = { ...tinySheet(), dpi: 200, window, lid: { grey: 60, margin: 0.001 } };
    const { picture } = await makeScan(spec);
    const scan = { name: 'scan.png', picture, isBilevel: false, notes: [] };
    const { kind, panels, scale, findings } = tracePanels(
      scan,
      scaleScan(scan, { testSquare: 20, ...typed }),
      () => {},
    );
    expect({ kind, panels: panels.length, findings }).toEqual({ kind: 'line', panels: 1, findings: [] });
    expect(Math.abs((scale.dpi.x + scale.dpi.y) / 2 - 200)).toBeLessThan(0.3);
  });
});

const told = (x: number, y: number, from: 'typed' | 'file' | 'guess', dpi: number): string[] => {
  const scale = { dpi: { x, y } } as ScanScale;
  return oddSetting(scale, { dpi, pxPerMm: dpi / 25.4, from }, 'a.png').map(({ message }) => message);
};

describe('a scale', () => {
  it('near a setting of scanners is not odd', () => {
    expect([...told(300, 300, 'guess', 150), ...told(307, 306, 'guess', 150), ...told(588, 590, 'file', 96)]).toEqual(
      [],
    );
  });

  it('of no scanner is told, unless the file says so too', () => {
    expect(told(280.5, 280.5, 'guess', 150)).toEqual([
      'by this square it was scanned at 281 dpi, which no scanner is set to',
    ]);
    expect(told(280.5, 280.5, 'file', 282)).toEqual([]);
  });

  it('other than what was typed is told', () => {
    expect(told(205.7, 205.7, 'typed', 200)).toEqual([
      'by this square it was scanned at 206 dpi, not at the 200 that was typed',
    ]);
    expect(told(280, 280, 'typed', 280)).toEqual([]);
  });
});
