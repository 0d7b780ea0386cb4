import type { Point } from '../geometry/point.ts';
import type { Words } from './scene.ts';
import { setText } from './set-text.ts';
import type { Weight } from './typefaces.ts';

/** How far letters reach above and below their base line, as shares of their size: capitals and tails with a little air. */
const [ABOVE, BELOW, BESIDE] = [0.82, 0.26, 0.12] as const;

/** Length of a line of text in millimetres, as it is set in the font that ships with the tool. */
export const wordsWidth = (text: string, size: number, weight: Weight = 'regular'): number =>
  setText(text, weight).width * size;

/** The corners of the ground that words stand on, clockwise from where they begin above. */
export const wordsBox = ({ text, at, size, weight, align = 'start', angle = 0 }: Words): Point[] => {
  const width = wordsWidth(text, size, weight);
  const start = align === 'start' ? 0 : align === 'middle' ? -width / 2 : -width;
  const [left, right] = [start - BESIDE * size, start + width + BESIDE * size];
  const [top, bottom] = [-ABOVE * size, BELOW * size];
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return [
    [left, top],
    [right, top],
    [right, bottom],
    [left, bottom],
  ].map(([x = 0, y = 0]) => ({ x: at.x + cos * x - sin * y, y: at.y + sin * x + cos * y }));
};
