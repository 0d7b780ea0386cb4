import { expect, it } from 'vitest';
import { compose, IDENTITY, inverse, rotation, scaling, translation } from '../../src/geometry/matrix.ts';

it.each([
  ['a shift', translation(30, -50)],
  ['a turn', rotation(0.3)],
  ['a mirror', scaling(-1, 1)],
  ['all of them, stretched', compose(translation(7, 9), compose(rotation(2), scaling(-2, 0.5)))],
])('an inverse undoes %s, from either side', (_, matrix) => {
  for (const both of [compose(inverse(matrix), matrix), compose(matrix, inverse(matrix))]) {
    for (const key of ['a', 'b', 'c', 'd', 'e', 'f'] as const) expect(both[key]).toBeCloseTo(IDENTITY[key], 12);
  }
});
