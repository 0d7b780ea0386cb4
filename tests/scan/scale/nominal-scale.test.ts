import { describe, expect, it } from 'vitest';
import { mustRedo, nominalScale } from '../../../src/scan/scale/nominal-scale.ts';

describe('the scale to begin with', () => {
  const picture = { width: 2480, height: 3508 };

  it('is what was typed, before what the file says', () => {
    expect(nominalScale(picture, { typed: 254, file: 600 })).toEqual({ dpi: 254, pxPerMm: 10, from: 'typed' });
    expect(nominalScale(picture, { file: 508 })).toEqual({ dpi: 508, pxPerMm: 20, from: 'file' });
  });

  it.each([
    ['A4', 2480, 3508, 300],
    ['A4 on its side', 3508, 2480, 300],
    ['A4 at 150', 1240, 1754, 150],
    ['A4 at 200', 1654, 2339, 200],
    ['A4 at 400', 3307, 4677, 400],
    ['A4 at 600', 4961, 7016, 600],
    ['letter', 2550, 3300, 300],
    ['letter at 600', 5100, 6600, 600],
    ['A3', 3508, 4961, 300],
    ['A3 at 150', 1754, 2480, 150],
    ['A3 at 600', 7016, 9921, 600],
    ['a part of a sheet, too large for 200', 2000, 2800, 300],
    ['a small part of a sheet', 700, 900, 150],
    ['a long strip', 2500, 9000, 300],
  ])('is guessed by the pixels of %s', (_, width, height, dpi) => {
    expect(nominalScale({ width, height }, {})).toMatchObject({ dpi, from: 'guess' });
  });

  it('is begun with anew where it was off by more than 15 %', () => {
    const begun = nominalScale(picture, { typed: 300 });
    const redo = (x: number, y: number): boolean => mustRedo(begun, { dpi: { x, y } });
    expect([redo(300, 300), redo(340, 340), redo(350, 350), redo(265, 265), redo(255, 255), redo(600, 600)]).toEqual([
      false,
      false,
      true,
      false,
      true,
      true,
    ]);
  });
});
