import { describe, expect, it } from 'vitest';
import { LONGEST_PAGE, paperNamed } from '../../src/print/paper-size.ts';
import { tilesAlong } from '../../src/print/tile-grid.ts';

const points = (mm: number): number => (mm * 72) / 25.4;

describe('paper sizes', () => {
  // ISO 216 sizes as listed in the LilyPond Notation Reference, appendix A.5 (the standard itself was not seen).
  it.each([
    ['a0', 841, 1189],
    ['a1', 594, 841],
    ['a2', 420, 594],
    ['a3', 297, 420],
    ['a4', 210, 297],
  ])('are those of ISO 216 for %s', (name, width, height) => {
    expect(paperNamed(name)).toMatchObject({ width, height });
  });

  // ISO 216 by its construction: each size is the one above cut in half, sides rounded down to a millimetre, area of A0 1 square metre.
  it('follow from halving A0', () => {
    let [width, height] = [841, 1189];
    for (const name of ['a1', 'a2', 'a3', 'a4']) {
      [width, height] = [Math.floor(height / 2), width];
      expect(paperNamed(name)).toMatchObject({ width, height });
    }
    expect(841 * 1189).toBeCloseTo(1e6, -3);
  });

  // gimpprint-mediasizes(7) and the GNU gv manual 7.3: sizes in points.
  it.each([
    ['letter', 612, 792],
    ['legal', 612, 1008],
    ['tabloid', 792, 1224],
    ['13x19in', 936, 1368],
  ])('are those of US paper for %s', (name, width, height) => {
    expect(points(paperNamed(name).width)).toBeCloseTo(width, 9);
    expect(points(paperNamed(name).height)).toBeCloseTo(height, 9);
  });

  // CUPS media.defs and the GNU gv manual 7.3 round sizes to whole points and differ by one: ours lie within 1.5 of both.
  it.each([
    ['a0', [2384], [3370, 3371]],
    ['a1', [1684], [2384]],
    ['a2', [1190, 1191], [1684]],
    ['a3', [842], [1190, 1191]],
    ['a4', [595], [842]],
  ])('lie within 1.5 points of the rounded tables for %s', (name, widths, heights) => {
    const { width, height } = paperNamed(name);
    for (const listed of widths) expect(Math.abs(points(width) - listed)).toBeLessThan(1.5);
    for (const listed of heights) expect(Math.abs(points(height) - listed)).toBeLessThan(1.5);
  });
});

describe('units of a page', () => {
  // W3C css-values-3, "Absolute Lengths": 1 in = 25.4 mm = 72 pt; 1 mm = 2.834646 pt. ISO 32000-1: the user unit is 1/72 in.
  it('are 2.834646 to the millimetre', () => {
    expect(points(1)).toBeCloseTo(2.834646, 6);
  });

  // ISO 32000-1, annex C, as quoted in a transcript and on a mailing list: at most 14,400 units, which is 5080 mm.
  it('are at most 14,400 a side', () => {
    expect(LONGEST_PAGE).toBe(5080);
    expect(points(LONGEST_PAGE)).toBeCloseTo(14_400, 9);
  });
});

const count = (width: number, height: number, paper: string, overlap: number): string => {
  const { width: w, height: h } = paperNamed(paper);
  return `${tilesAlong(width, w - 20, overlap)}x${tilesAlong(height, h - 20, overlap)}`;
};

describe('counts of pages', () => {
  // Arithmetic: ceil((length - overlap) / (page - 2 margins - overlap)), margins of 10 mm.
  it.each([
    [600, 800, 'a4', 10, '4x3'],
    [600, 800, 'letter', 10, '4x4'],
    [600, 800, 'a4', 20, '4x4'],
    [190, 277, 'a4', 10, '1x1'],
    [370, 277, 'a4', 10, '2x1'],
    [370.1, 277, 'a4', 10, '3x1'],
  ])('for %d x %d mm on %s with an overlap of %d mm are %s', (width, height, paper, overlap, expected) => {
    expect(count(width, height, paper, overlap)).toBe(expected);
  });
});

const fitted = (page: string, paper: string, edge: number): number => {
  const [a, b] = [paperNamed(page), paperNamed(paper)];
  return 100 * Math.min((b.width - 2 * edge) / a.width, (b.height - 2 * edge) / a.height);
};

describe('a page that was fitted to the paper', () => {
  // Arithmetic: the smaller ratio of printable side to page side; printers' bare edges of 4 mm as in the Konica Minolta 2490MF guide, p. 46.
  it.each([
    ['a4', 'a4', 4, 96.19],
    ['a4', 'letter', 0, 94.07],
    ['a4', 'letter', 4, 91.38],
    ['letter', 'a4', 0, 97.27],
  ])(
    'of %s on %s with bare edges of %d mm is %d %% of its size, which the test square shows',
    (page, paper, edge, percent) => {
      const scale = fitted(page, paper, edge);
      expect(scale).toBeCloseTo(percent, 2);
      const wrong = 50 - (50 * scale) / 100;
      expect(wrong).toBeGreaterThan(1);
    },
  );
});
