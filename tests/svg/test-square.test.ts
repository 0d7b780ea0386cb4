import { describe, expect, it } from 'vitest';
import { pathBox } from '../../src/geometry/box.ts';
import { complaintOf, drawingOf, millimetres } from './drawn-svg.ts';

const PANEL = '<path id="front" d="M100 100H150V300H100Z"/>';
const widths = (content: string, testSquare: number): number[] =>
  drawingOf(millimetres(content), { testSquare }).outlines.map(({ path }) => {
    const { minX, maxX } = pathBox(path);
    return Math.round((maxX - minX) * 1e6) / 1e6;
  });
const complaint = (content: string): string => complaintOf(() => drawingOf(millimetres(content), { testSquare: 50 }));

describe('--test-square', () => {
  it('scales everything by the one square and drops it', () => {
    expect(widths(`${PANEL}<rect width="40" height="40"/>`, 50)).toEqual([62.5]);
    const { strokes, artwork, warnings } = drawingOf(
      millimetres(`${PANEL}<rect width="40" height="40"/><path d="M0 0H10"/><text x="8" y="16">a</text>`),
      { testSquare: 50.8 },
    );
    expect(strokes[0]!.path.segments[0]!.end.x).toBeCloseTo(12.7, 9);
    expect(artwork[0]!.at.x).toBeCloseTo(8 * 1.27, 9);
    expect(warnings).toEqual(['the test square is 40.00 mm as drawn: every size is multiplied by 1.2700']);
  });

  it('finds it turned, and drawn as four lines', () => {
    expect(widths(`${PANEL}<rect width="40" height="40" transform="translate(300 0) rotate(30)"/>`, 50)).toEqual([
      62.5,
    ]);
    expect(
      widths(`${PANEL}<path d="M0 0H25"/><path d="M25 0V25"/><path d="M25 25H0"/><path d="M0 25V0"/>`, 50),
    ).toEqual([100]);
  });

  it('finds it with nodes along its sides, and corners half a millimetre off', () => {
    expect(widths(`${PANEL}<path d="M0 0H20H40V40H0V10Z"/>`, 50)).toEqual([62.5]);
    expect(widths(`${PANEL}<path d="M0 0H100.2V100.1H0Z"/>`, 100)[0]).toBeCloseTo(50, 0);
  });

  it('takes the one named so among several', () => {
    expect(widths(`${PANEL}<rect width="60" height="60"/><rect id="Test-square" width="40" height="40"/>`, 50)).toEqual(
      [62.5, 75],
    );
  });

  it('refuses none, and several that could be meant', () => {
    const near =
      '<rect width="40" height="42"/><circle r="20"/><rect width="40" height="40" transform="skewX(5)"/><rect width="40" height="40" rx="3"/>';
    expect(complaint(`${PANEL}${near}`)).toBe('usage: --test-square: drawn.svg holds no square');
    expect(complaint(`${PANEL}<rect width="40" height="40"/><rect x="60" width="30" height="30"/>`)).toMatch(
      /^usage: --test-square: 2 squares could be meant: drawn\.svg:1:\d+ \(40\.0 mm as drawn\), drawn\.svg:1:\d+ \(30\.0 mm as drawn\)$/,
    );
  });
});

describe('--scale', () => {
  it('multiplies every size, and closes gaps as they are then', () => {
    const { outlines } = drawingOf(millimetres('<path d="M0 0H10V10H0V0.1"/>'), { scale: 4 });
    expect(pathBox(outlines[0]!.path)).toMatchObject({ maxX: 40, maxY: 40 });
  });

  it('goes with no test square, and with no sheet', () => {
    expect(complaintOf(() => drawingOf('<svg/>', { scale: 2, testSquare: 3 }))).toBe(
      'usage: --scale: give --scale or --test-square, not both',
    );
    expect(complaintOf(() => drawingOf('<svg data-sheet="1"/>', { scale: 2 }))).toBe(
      'usage: --scale: drawn.svg is a sheet, whose size is known',
    );
    expect(complaintOf(() => drawingOf('<svg data-sheet="1"/>', { testSquare: 2 }))).toBe(
      'usage: --test-square: drawn.svg is a sheet, whose size is known',
    );
  });
});
