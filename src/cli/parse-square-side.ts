import { StaywrightError } from '../errors.ts';
import { parseLength } from './parse-length.ts';

/** The true side of a test square, in millimetres. */
export const parseSquareSide = (text: string): number => {
  const side = parseLength(text, '--test-square');
  if (side > 0) return side;
  throw new StaywrightError('usage', `${text} is no side of a square`, {
    where: '--test-square',
    hint: 'say how long its side truly is, like 2in',
  });
};
