import { expect, test } from 'vitest';
import { spreadApart } from '../../src/picture/spread-apart.ts';

test('places that are far enough apart stay where they are', () => {
  expect(spreadApart([0, 10, 25], 5)).toEqual([0, 10, 25]);
  expect(spreadApart([], 5)).toEqual([]);
});

test('two that are too close part evenly about their middle', () => {
  expect(spreadApart([10, 12], 6)).toEqual([8, 14]);
  expect(spreadApart([12, 10], 6)).toEqual([14, 8]);
});

test('a pair that is parted takes its neighbour with it', () => {
  expect(spreadApart([0, 1, 5], 4)).toEqual([-2, 2, 6]);
  expect(spreadApart([7, 7, 7, 30], 2)).toEqual([5, 7, 9, 30]);
});
