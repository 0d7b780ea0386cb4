import { describe, expect, it } from 'vitest';
import { transformPoint } from '../../src/geometry/transform-path.ts';
import { readViewBox, viewBoxMatrix } from '../../src/svg/view-box.ts';
import { complaintOf } from './drawn-svg.ts';

const box = { x: 10, y: 20, width: 100, height: 50 };
const corners = (aspect: string | undefined, width: number, height: number): number[] => {
  const matrix = viewBoxMatrix(box, { width, height }, aspect, 'f:1:1');
  const [a, b] = [transformPoint({ x: 10, y: 20 }, matrix), transformPoint({ x: 110, y: 70 }, matrix)];
  return [a.x, a.y, b.x, b.y];
};

describe('viewBoxMatrix', () => {
  it('fits a wide drawing into a square and centres it, unless told otherwise', () => {
    expect(corners(undefined, 200, 200)).toEqual([0, 50, 200, 150]);
    expect(corners('xMidYMid meet', 200, 200)).toEqual([0, 50, 200, 150]);
    expect(corners('xMinYMin', 200, 200)).toEqual([0, 0, 200, 100]);
    expect(corners('xMaxYMax', 200, 200)).toEqual([0, 100, 200, 200]);
    expect(corners('xMaxYMid', 400, 100)).toEqual([200, 0, 400, 100]);
  });

  it('fills with slice, so that the drawing reaches beyond', () => {
    expect(corners('xMidYMid slice', 200, 200)).toEqual([-100, 0, 300, 200]);
    expect(corners('xMinYMax slice', 100, 100)).toEqual([0, 0, 200, 100]);
  });

  it('stretches with none', () => {
    expect(corners('none', 200, 200)).toEqual([0, 0, 200, 200]);
  });

  it('refuses a value that SVG does not know', () => {
    expect(complaintOf(() => corners('middle', 1, 1))).toBe("input: f:1:1: unknown preserveAspectRatio 'middle'");
  });
});

describe('readViewBox', () => {
  it('reads four numbers, commas or not', () => {
    expect(readViewBox(' 10, 20 100,50 ', 'f')).toEqual(box);
    expect(readViewBox(undefined, 'f')).toBeUndefined();
  });

  it.each(['0 0 10', '0 0 10 10 10', '0 0 0 10', '0 0 10 -1', '0 0 a 10', '0 0 1e999 10'])('refuses %j', (text) => {
    expect(complaintOf(() => readViewBox(text, 'f:1:1'))).toMatch(/^input: f:1:1: viewBox/);
  });
});
