/** Lines that no outline follows, each with its place in millimetres. */
import { describe, expect, it } from 'vitest';
import type { Picture } from '../../../src/scan/picture.ts';
import { findOutlines } from '../../../src/scan/rough/find-outlines.ts';
import { looseLines } from '../../../src/scan/rough/loose-lines.ts';
import { box, drawn } from './drawn.ts';

/** How each loose line is, whether it leaves an outline, and where. */
const loose = (picture: Picture): [string, boolean, number, number][] => {
  const { working, outlines } = findOutlines(picture, 6, 'line');
  return looseLines(working, outlines, 6)
    .map(({ how, outline, at }): [string, boolean, number, number] => [
      how,
      outline !== undefined,
      Math.round(at.x / 6),
      Math.round(at.y / 6),
    ])
    .toSorted((a, b) => a[3] - b[3]);
};

/** 25 by 60 mm, open at the right from 20 to 22 mm, with a line across at 40 mm that closes its lower half. */
const BROKEN = [
  [10, 10, 35, 10],
  [35, 10, 35, 20],
  [35, 22, 35, 70],
  [35, 70, 10, 70],
  [10, 70, 10, 10],
  [10, 40, 35, 40],
] as const;

describe('a broken outline of which a line across closes a part', () => {
  it('is told with the place where it is open', () => {
    const near: unknown = expect.toSatisfy((y: number) => y >= 19 && y <= 23);
    expect(loose(drawn(50, 80, BROKEN))).toEqual([
      ['open', true, 35, near],
      ['open', true, 35, near],
    ]);
  });

  it('is told where it runs out of the picture', () => {
    const cut = [[10, -5, 10, 70], [10, 70, 35, 70], [35, 70, 35, -5], [10, 40, 35, 40]] as const; // prettier-ignore
    const { width, height, grey } = drawn(50, 90, cut.map(([a, b, c, d]) => [a, b + 6, c, d + 6] as const)); // prettier-ignore
    const rows = 6 * 8;
    const lower = { width, height: height - rows, grey: grey.subarray(rows * width) };
    expect(loose(lower)).toEqual([
      ['cut', true, 10, 0],
      ['cut', true, 35, 0],
    ]);
  });

  it('is told where nothing closes any part of it but another panel is found', () => {
    const lines = loose(drawn(80, 80, [...box(45, 10, 25, 60), ...BROKEN.slice(0, 5)]));
    expect(lines.map(([how, leaves]) => [how, leaves])).toEqual([
      ['open', false],
      ['open', false],
    ]);
    for (const [, , x, y] of lines) expect(Math.hypot(x - 35, y - 21)).toBeLessThan(3);
  });
});

describe('panels that share a line', () => {
  it('are told where a part of one is the side of the other', () => {
    expect(loose(drawn(80, 90, [...box(10, 10, 25, 45), ...box(35, 30, 25, 50)]))).toEqual([['shared', true, 35, 29]]);
  });

  it('are told where the line divides what was read as one panel', () => {
    expect(loose(drawn(80, 80, [...box(10, 10, 25, 60), ...box(35, 10, 25, 60)]))).toEqual([['divides', true, 35, 11]]);
  });

  it('are told where a smaller size leaves the larger', () => {
    const smaller = [[40, 10, 30, 40], [30, 40, 30, 62], [30, 62, 10, 62]] as const; // prettier-ignore
    expect(loose(drawn(80, 80, [...box(10, 10, 50, 60), ...smaller]))).not.toEqual([]);
  });
});

describe('nothing is told', () => {
  const PANEL = box(10, 10, 25, 60);

  it.each([
    ['of a panel with a waist line and a grainline', [...PANEL, [10, 40, 35, 40], [22, 15, 22, 65]]],
    ['of a line right through two panels', [...PANEL, ...box(45, 10, 25, 60), [2, 40, 78, 40]]],
    ['of strokes that tie two panels', [...PANEL, ...box(45, 10, 25, 60), [35, 25, 45, 25], [35, 45, 45, 48]]],
    ['of a pen that ran on over corners', [...PANEL, [35, 70, 35, 76], [4, 10, 10, 10]]],
    ['of ticks, and of letters beside a panel', [...PANEL, [33, 30, 40, 30], ...box(45, 20, 4, 6), [50, 20, 54, 26]]],
    ['of a dart', [...PANEL, [10, 30, 22, 34], [22, 34, 10, 38]]],
  ] as [string, [number, number, number, number][]][])('%s', (_, strokes) => {
    expect(loose(drawn(80, 80, strokes))).toEqual([]);
  });
});
