import { describe, expect, it } from 'vitest';
import { IDENTITY } from '../../src/geometry/matrix.ts';
import { transformPoint } from '../../src/geometry/transform-path.ts';
import { transformList } from '../../src/svg/transform-list.ts';
import { complaintOf } from './drawn-svg.ts';

const image = (text: string): number[] => {
  const { x, y } = transformPoint({ x: 10, y: 20 }, transformList(text, 'f:1:1'));
  return [x, y].map((v) => Math.round(v * 1e9) / 1e9);
};

describe('transformList', () => {
  it('applies the last function first', () => {
    expect(image('translate(5) scale(2)')).toEqual([25, 40]);
    expect(image('scale(2), translate(5)')).toEqual([30, 40]);
  });

  it('turns clockwise on paper for positive angles, about a point if one is given', () => {
    expect(image('rotate(90)')).toEqual([-20, 10]);
    expect(image('rotate(90deg 10 20)')).toEqual([10, 20]);
    expect(image('rotate(90, 0, 20)')).toEqual([0, 30]);
  });

  it('knows every function, and numbers without separators', () => {
    expect(image('matrix(1-2 3,4 .5.5)')).toEqual([70.5, 60.5]);
    expect(image('skewX(45)')).toEqual([30, 20]);
    expect(image('skewY(45)')).toEqual([10, 30]);
    expect(image('scale(-1)translate(1px,2px)')).toEqual([-11, -22]);
    expect([transformList('', 'f'), transformList(' none ', 'f')]).toEqual([IDENTITY, IDENTITY]);
  });

  it.each([
    'translate',
    'translate()',
    'translate(1 2 3)',
    'rotate(1 2)',
    'spin(3)',
    'scale(a)',
    'matrix(1 2 3 4 5 1e999)',
    'scale(1',
    'toString()',
    '(1)',
  ])('refuses %j with the place', (text) =>
    expect(complaintOf(() => transformList(text, 'f:1:1'))).toMatch(/^input: f:1:1: /),
  );
});
