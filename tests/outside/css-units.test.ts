/** W3C, CSS Values and Units Module Level 3, section "Absolute Lengths": the table of units. */
import { expect, it } from 'vitest';
import { MM_PER_PX } from '../../src/svg/css-length.ts';
import { drawingOf } from '../svg/drawn-svg.ts';

const TABLE = [
  ['cm', 37.795276],
  ['mm', 3.779528],
  ['Q', 3.779528 / 4],
  ['in', 96],
  ['pc', 16],
  ['pt', 1.333333],
  ['px', 1],
] as const;

it.each(TABLE)('one %s is %f px', (unit, px) => {
  const { outlines } = drawingOf(
    `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm"><rect width="10${unit}" height="20${unit}"/></svg>`,
  );
  const [top, right] = outlines[0]!.path.segments;
  expect((top!.end.x - top!.start.x) / MM_PER_PX).toBeCloseTo(10 * px, 4);
  expect((right!.end.y - right!.start.y) / MM_PER_PX).toBeCloseTo(20 * px, 4);
});

it('an inch on paper is 25.4 mm, whatever the numbers of the drawing', () => {
  const { outlines } = drawingOf(
    '<svg xmlns="http://www.w3.org/2000/svg" width="8.5in" height="11in" viewBox="0 0 612 792"><rect width="72" height="144"/></svg>',
  );
  const { end } = outlines[0]!.path.segments[1]!;
  expect(end.x).toBeCloseTo(25.4, 10);
  expect(end.y).toBeCloseTo(50.8, 10);
});
