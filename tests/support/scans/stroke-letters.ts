import type { Point } from '../../../src/geometry/point.ts';

/** Letters as pen strokes in a box 2 wide and 3 high, y downwards. */
const LETTERS: Readonly<Record<string, string>> = {
  '1': '0,1 1,0 1,3',
  '2': '0,0.6 0.5,0 1.5,0 2,0.7 1.8,1.4 0,3 2,3',
  '3': '0,0 2,0 1,1.2 1.7,1.5 2,2.2 1.5,3 0.4,3 0,2.5',
  '4': '1.5,3 1.5,0 0,2 2,2',
  A: '0,3 1,0 2,3|0.4,1.9 1.6,1.9',
  B: '0,0 0,3 1.4,3 2,2.4 1.5,1.5 0,1.5|0,0 1.3,0 1.8,0.7 1.5,1.5',
  C: '2,0.5 1.5,0 0.5,0 0,0.8 0,2.2 0.5,3 1.5,3 2,2.5',
  D: '0,0 0,3 1.2,3 2,2.2 2,0.8 1.2,0 0,0',
  E: '2,0 0,0 0,3 2,3|0,1.5 1.5,1.5',
  F: '2,0 0,0 0,3|0,1.5 1.5,1.5',
  G: '2,0.5 1.5,0 0.5,0 0,0.8 0,2.2 0.5,3 1.5,3 2,2.5 2,1.7 1.2,1.7',
  I: '1,0 1,3',
  K: '0,0 0,3|2,0 0,1.8|0.7,1.2 2,3',
  N: '0,3 0,0 2,3 2,0',
  O: '0.5,0 0,0.8 0,2.2 0.5,3 1.5,3 2,2.2 2,0.8 1.5,0 0.5,0',
  R: '0,3 0,0 1.4,0 2,0.7 1.5,1.5 0,1.5|1,1.5 2,3',
  S: '2,0.5 1.5,0 0.5,0 0,0.7 0.5,1.4 1.5,1.6 2,2.3 1.5,3 0.5,3 0,2.5',
  T: '0,0 2,0|1,0 1,3',
  U: '0,0 0,2.3 0.5,3 1.5,3 2,2.3 2,0',
};

/** The strokes of a word whose first letter has its upper left corner at `at`, `height` high. */
export const letterStrokes = (word: string, at: Point, height: number): Point[][] => {
  const size = height / 3;
  return [...word].flatMap((letter, i) =>
    (LETTERS[letter] ?? '')
      .split('|')
      .filter((stroke) => stroke !== '')
      .map((stroke) =>
        stroke.split(' ').map((pair) => {
          const [x = 0, y = 0] = pair.split(',').map(Number);
          return { x: at.x + (x + i * 2.9) * size, y: at.y + y * size };
        }),
      ),
  );
};
