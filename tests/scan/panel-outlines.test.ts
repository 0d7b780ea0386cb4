/** Which closed lines of a picture are panels. */
import { describe, expect, it } from 'vitest';
import { panelOutlines } from '../../src/scan/panel-outlines.ts';
import type { RoughOutline } from '../../src/scan/rough-outline.ts';

const PX_PER_MM = 6;

/** A rectangle in millimetres, within the outline of that number. */
const box = (x: number, y: number, width: number, height: number, within?: number): RoughOutline => ({
  edge: 'ink',
  points: [
    [x, y],
    [x + width, y],
    [x + width, y + height],
    [x, y + height],
  ].map(([px, py]) => ({ x: px! * PX_PER_MM, y: py! * PX_PER_MM })),
  ...(within === undefined ? {} : { within }),
});

/** The numbers of the panels, each with those of the lines that run round within it. */
const numbers = (outlines: readonly RoughOutline[], squares: readonly number[] = []): [number, number[]][] =>
  panelOutlines(outlines, PX_PER_MM, squares).map(({ outline, within }) => [
    outlines.indexOf(outline),
    within.map((one) => outlines.indexOf(one)),
  ]);

describe('a panel', () => {
  it('is 20 mm long and 8 mm wide at least', () => {
    expect(numbers([box(0, 0, 8, 20), box(20, 0, 20, 8), box(50, 0, 19.5, 19.5), box(80, 0, 7.5, 200)])).toEqual([
      [0, []],
      [1, []],
    ]);
  });

  it('is the outermost of several lines; those that enclose most of it are kept beside it', () => {
    // A second size, a third within that, and a pocket.
    const outlines = [box(0, 0, 100, 200), box(5, 5, 90, 190, 0), box(10, 10, 80, 180, 1), box(30, 100, 40, 40, 2)];
    expect(numbers(outlines)).toEqual([[0, [1, 2]]]);
  });

  it('may hold a ring that is none', () => {
    expect(numbers([box(0, 0, 100, 200), box(40, 40, 10, 10, 0)])).toEqual([[0, []]]);
  });

  it('may lie within a ring too small to be one', () => {
    // Cannot be on paper, but nothing may be lost by it.
    expect(numbers([box(0, 0, 7, 300), box(0, 0, 30, 60, 0)])).toEqual([[1, []]]);
  });
});

describe('no panel', () => {
  it('is the test square, or the card that it is printed on', () => {
    expect(numbers([box(0, 0, 58, 58), box(4, 4, 50, 50, 0), box(100, 0, 60, 90)], [1])).toEqual([[2, []]]);
  });

  it('is any of several test squares, nor what stands in them', () => {
    expect(numbers([box(0, 0, 50, 50), box(60, 0, 50, 50), box(5, 20, 40, 10, 0)], [0, 1])).toEqual([]);
  });

  it('is a frame drawn twice round the square', () => {
    expect(numbers([box(0, 0, 70, 70), box(4, 4, 60, 60, 0), box(9, 9, 50, 50, 1)], [2])).toEqual([]);
  });
});

describe('a test square printed within a panel', () => {
  it('leaves the panel a panel, and is no line that runs round it', () => {
    expect(numbers([box(0, 0, 200, 300), box(70, 100, 50, 50, 0)], [1])).toEqual([[0, []]]);
  });
});
