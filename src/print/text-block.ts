import type { Point } from '../geometry/point.ts';
import { setText } from '../ink/set-text.ts';
import { withinSpot, type TextSpot } from './text-spot.ts';
import type { Weight } from '../ink/typefaces.ts';

/** A line of text in its place: the middle of its base line is at `at`. */
export interface PlacedText {
  readonly text: string;
  readonly at: Point;
  readonly size: number;
  readonly angle: number;
  readonly weight: Weight;
}

/** A line of text and the size of its em in millimetres. */
export interface Words {
  readonly text: string;
  readonly size: number;
  readonly weight: Weight;
}

/** Lines one under the other, in the middle of the room that they take up. */
export interface TextBlock {
  readonly words: readonly Words[];
  readonly spot: TextSpot;
}

const LEADING = 1.3;
/** From the base line of a line down to the top of the next, in ems. */
const BELOW_BASE = 0.32;

/** White kept at either end of a block, in millimetres. */
const BESIDE = 0.8;

export const widthOf = (words: readonly Words[]): number =>
  Math.max(...words.map(({ text, weight, size }) => setText(text, weight).width * size));

export const heightOf = (words: readonly Words[]): number => words.reduce((sum, { size }) => sum + size * LEADING, 0);

export const blockAt = (words: readonly Words[], middle: Point, angle = 0): TextBlock => ({
  words,
  spot: { middle, angle, width: widthOf(words) + 2 * BESIDE, height: heightOf(words) },
});

export const linesOf = ({ words, spot }: TextBlock): PlacedText[] => {
  let down = -spot.height / 2;
  return words.map(({ text, size, weight }) => {
    const base = down + size * (LEADING - BELOW_BASE);
    down += size * LEADING;
    return { text, weight, size, angle: spot.angle, at: withinSpot(spot, 0, base) };
  });
};
