import { describe, expect, it } from 'vitest';
import { compose, scaling, translation, type Matrix } from '../../../src/geometry/matrix.ts';
import type { RoughOutline } from '../../../src/scan/rough-outline.ts';
import { findTestSquare, type TestSquare } from '../../../src/scan/scale/find-test-square.ts';
import { nominalScale } from '../../../src/scan/scale/nominal-scale.ts';
import { trueScale } from '../../../src/scan/scale/true-scale.ts';
import { caught } from '../../support/caught.ts';
import { drawPicture, squareLight } from './draw-square.ts';
import { roughOutline } from './rough-square.ts';

const PAPER = 0.85;

interface Laid {
  readonly side: number;
  /** Its middle on the sheet, millimetres. */
  readonly at: readonly [number, number];
  readonly filled?: boolean;
}

/** A sheet with squares at a true density, and their rough outlines. */
const sheet = (dpi: number, width: number, height: number, squares: readonly Laid[]) => {
  const seen = scaling(dpi / 25.4);
  const places = squares.map(({ at }): Matrix => compose(seen, translation(at[0], at[1])));
  const lights = squares.map(({ side, filled }, i) =>
    squareLight({ fromMm: places[i]!, side, blur: 18 / dpi, paper: PAPER, ...(filled ? {} : { line: 0.5 }) }),
  );
  const picture = drawPicture(Math.round((width / 25.4) * dpi), Math.round((height / 25.4) * dpi), (x, y) =>
    Math.min(...lights.map((light) => light(x, y))),
  );
  const outlines = squares.map(({ side, filled }, i): RoughOutline => {
    const h = side / 2;
    const outline = roughOutline(
      [
        [-h, -h],
        [h, -h],
        [h, h],
        [-h, h],
      ],
      places[i]!,
      undefined,
    );
    return filled ? { ...outline, edge: 'darker' } : outline;
  });
  const find = (side: number, known: { typed?: number; file?: number } = {}): TestSquare =>
    findTestSquare({ picture, name: 'scan.png' }, outlines, side, nominalScale(picture, known));
  return { picture, outlines, find };
};

describe('the test square of a scan', () => {
  const pair = sheet(102, 116, 60, [
    { side: 50.8, at: [28, 30] },
    { side: 50, at: [86, 30] },
  ]);

  it('is, of a pair of 50 mm and 2 in, the one that is meant, whatever is known of the scale', () => {
    for (const known of [{}, { typed: 100 }, { file: 104 }]) {
      const metric = pair.find(50, known);
      expect(metric).toMatchObject({ square: 1, others: [0] });
      expect(Math.abs(metric.scale.dpi.x / 102 - 1)).toBeLessThan(0.0005);
      const inches = pair.find(50.8, known);
      expect(inches).toMatchObject({ square: 0, others: [1] });
      expect(Math.abs(inches.scale.dpi.x / 102 - 1)).toBeLessThan(0.0005);
    }
  });

  const two = sheet(150, 50, 28, [
    { side: 20, at: [13, 14] },
    { side: 15, at: [38, 14] },
  ]);

  it('is the one whose size fits a known scale', () => {
    expect(two.find(20, { typed: 148 })).toMatchObject({ square: 0, others: [] });
    expect(two.find(15, { file: 152 })).toMatchObject({ square: 1, others: [] });
  });

  it('is not guessed where several sizes could be meant', () => {
    const { code, where, message, hint } = caught(() => two.find(20));
    expect({ code, where }).toEqual({ code: 'usage', where: '--test-square' });
    expect(message).toContain('2 squares that could be 20 mm');
    expect(message).toContain('20.0 mm, 15.0 mm');
    expect(hint).toContain('--dpi');
  });

  it('is not found where none has its size; those that are there are named', () => {
    const { code, where, message } = caught(() => two.find(50, { typed: 150 }));
    expect({ code, where }).toEqual({ code: 'usage', where: '--test-square' });
    expect(message).toBe('scan.png shows no square of 50 mm, but of 20.0 mm, 15.0 mm at the 150 dpi that was typed');
    const { outlines: _, ...bare } = two;
    const nothing = caught(() =>
      findTestSquare({ picture: bare.picture, name: 'scan.png' }, [], 50.8, nominalScale(bare.picture, {})),
    );
    expect(nothing.message).toContain('shows no square');
    expect(nothing.hint).toContain('--dpi');
  });

  it('is found although the file says a wrong density, which is only a hint', () => {
    const one = sheet(150, 26, 26, [{ side: 20, at: [13, 13] }]);
    expect(one.find(20, { file: 300 }).scale.dpi.x).toBeCloseTo(150, 1);
    expect(caught(() => one.find(20, { typed: 300 })).message).toContain('10.0 mm');
  });

  it('may be one of several of the same size', () => {
    const same = sheet(150, 50, 26, [
      { side: 20, at: [13, 13] },
      { side: 20, at: [37, 13] },
    ]);
    const { square, others, scale } = same.find(20);
    expect([square, ...others].toSorted()).toEqual([0, 1]);
    expect(scale.dpi.y).toBeCloseTo(150, 1);
  });

  it('is a printed ring before a filled square, and a filled one where there is no other', () => {
    const mixed = sheet(150, 50, 28, [
      { side: 20, at: [13, 14], filled: true },
      { side: 20.8, at: [38, 14] },
    ]);
    expect(mixed.find(20)).toMatchObject({ square: 1 });
    const filled = sheet(150, 26, 26, [{ side: 20, at: [13, 13], filled: true }]);
    expect(filled.find(20).scale.dpi.x).toBeCloseTo(150, 1);
  });

  it('goes before what was typed, and is said to be doubtful where it is', () => {
    const one = sheet(150, 26, 26, [{ side: 20, at: [13, 13] }]);
    const scan = { picture: one.picture, name: 'scan.png', dpi: 150 };
    const nominal = nominalScale(one.picture, { typed: 148 });
    const found = trueScale(scan, one.outlines, { testSquare: 20, dpi: 148 }, nominal);
    expect(found).toMatchObject({ squares: [0], scale: { how: 'test-square', side: 20 } });
    const rough = trueScale({ ...scan, isBilevel: true }, one.outlines, { testSquare: 20 }, nominal);
    expect(rough.findings).toMatchObject([{ weight: 'warning', kind: 'scale-doubtful' }]);
    expect(trueScale(scan, [], { dpi: 148 }, nominal)).toMatchObject({ squares: [], scale: { how: 'dpi' } });
  });

  it('with a side that is not what is printed is told by what the file says', () => {
    const one = sheet(150, 26, 26, [{ side: 20, at: [13, 13] }]);
    const nominal = nominalScale(one.picture, {});
    const told = (side: number, dpi: number): readonly string[] =>
      trueScale({ picture: one.picture, name: 'scan.png', dpi }, one.outlines, { testSquare: side }, nominal)
        .findings.filter(({ kind }) => kind === 'square-differs')
        .map(({ message }) => message);
    expect(told(20, 152)).toEqual([]);
    expect(told(25.4, 150)).toEqual(['with its square taken for 1 in it has 118 dpi; the file says 150']);
    expect(told(20, 200)).toEqual(['with its square taken for 20 mm it has 150 dpi; the file says 200']);
  });
});
