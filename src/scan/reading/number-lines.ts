import type { Point } from '../../geometry/point.ts';

/** Each figure as strokes in a box 2 wide and 4 high: pen strokes, so that no font is needed to read them. */
const FIGURES = [
  '00 20 24 04 00',
  '01 10 14',
  '00 20 22 02 04 24',
  '00 20 24 04|02 22',
  '10 02 22|20 24',
  '20 00 02 22 24 04',
  '20 00 04 24 22 02',
  '00 20 14',
  '00 20 24 04 00|02 22',
  '22 02 00 20 24 04',
];

/** How far one figure stands from the next, in the same measure. */
const STEP = 3;

/** A number as lines of a pen, `height` high, the middle of its top at `at`. */
export const numberLines = (number: number, at: Point, height: number): Point[][] => {
  const figures = [...String(number)];
  const unit = height / 4;
  const left = at.x - ((figures.length - 1) * STEP + 2) * (unit / 2);
  return figures.flatMap((figure, i) =>
    FIGURES[Number(figure)]!.split('|').map((stroke) =>
      stroke.split(' ').map((corner) => ({
        x: left + (i * STEP + Number(corner[0])) * unit,
        y: at.y + Number(corner[1]) * unit,
      })),
    ),
  );
};
