import { describe, expect, it } from 'vitest';
import { IDENTITY } from '../../../src/geometry/matrix.ts';
import { oddSetting } from '../../../src/scan/scale/odd-setting.ts';

const NOMINAL = { dpi: 300, pxPerMm: 300 / 25.4, from: 'file' } as const;

const told = (side: number, x: number, y = x): string[] =>
  oddSetting({ how: 'test-square', toMm: IDENTITY, dpi: { x, y }, turn: 0, shear: 0, side }, NOMINAL, 'scan.png').map(
    ({ kind }) => kind,
  );

describe('oddSetting', () => {
  it('is silent for a scanner that is a little off', () => {
    expect(told(50, 303.1, 297.2)).toEqual([]);
    expect(told(50.8, 300)).toEqual([]);
  });

  it('asks whether 2 in were taken for 50 mm, which makes 300 dpi 304.8, and the other way round', () => {
    expect(told(50, 304.8)).toEqual(['square-mixed-up']);
    expect(told(50.8, 300 / 1.016)).toEqual(['square-mixed-up']);
    expect(told(50.8, 304.8)).toEqual([]);
    expect(told(25.4, 304.8)).toEqual([]);
  });

  it('tells a setting that no scanner has', () => {
    expect(told(50, 333)).toEqual(['scale-odd']);
  });
});
