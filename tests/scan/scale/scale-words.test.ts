import { describe, expect, it } from 'vitest';
import { IDENTITY } from '../../../src/geometry/matrix.ts';
import { scaleFromDpi } from '../../../src/scan/scale/scale-from-dpi.ts';
import { rightWithin, scaleWords, squareName } from '../../../src/scan/scale/scale-words.ts';

describe('the words for a scale', () => {
  const radians = Math.PI / 180;
  const square = { how: 'test-square', side: 50, toMm: IDENTITY, dpi: { x: 304.06, y: 297.84 } } as const;

  it('say what the square shows and how sure it is', () => {
    const scale = { ...square, turn: 1.2 * radians, shear: -0.3 * radians, misfit: 0.0041, doubt: 0.0052 };
    expect(scaleWords(scale)).toBe(
      'scale: from the 50 mm square, 304.1 dpi along and 297.8 dpi down, turned 1.2 degrees clockwise, skewed 0.3 degrees; ' +
        'its corners fit within 0.01 mm, 100 mm are right within 0.02 mm',
    );
  });

  it('say no more than is known', () => {
    expect(scaleWords({ ...square, side: 50.8, turn: -0.02 * radians, shear: 0 })).toBe(
      'scale: from the 2 in square, 304.1 dpi along and 297.8 dpi down, turned 0.0 degrees, skewed 0.0 degrees',
    );
    expect(scaleWords(scaleFromDpi({ typed: 299.5 }, '').scale)).toMatch(/^scale: 299.5 dpi, as typed/);
    expect(scaleWords(scaleFromDpi({ file: 300 }, '').scale)).toMatch(/^scale: 300 dpi, as the file says of itself/);
  });

  it('round a doubt up, and never to nothing', () => {
    expect([0, 0.001, 0.004, 0.1].map(rightWithin)).toEqual(['0.01', '0.01', '0.02', '0.31']);
  });

  it('name a square by its unit', () => {
    expect([50, 50.8, 25.4, 63.5, 3.175 * 9, 20, 99.9].map(squareName)).toEqual([
      '50 mm',
      '2 in',
      '1 in',
      '2.5 in',
      '1.125 in',
      '20 mm',
      '99.9 mm',
    ]);
  });
});
