import { usage } from '../../errors.ts';

/** No scanner for paper gives less or more. */
const LEAST_DPI = 50;
const MOST_DPI = 2400;

/** The pixels to the inch that were typed: `300`, `299.5`. Throws a `usage` error for anything but a number from 50 to 2400. */
export const parseDpi = (text: string): number => {
  const typed = text.trim().replace(/\s*dpi$/i, '');
  if (typed === '') throw wrong('a number is missing');
  if (/^\d+,\d+$/.test(typed))
    throw wrong(`'${typed}' is not a number`, `write it with a point: ${typed.replace(',', '.')}`);
  if (!/^(\d+(\.\d*)?|\.\d+)$/.test(typed)) throw wrong(`'${typed}' is not a number`);
  const dpi = Number(typed);
  if (dpi >= LEAST_DPI && dpi <= MOST_DPI) return dpi;
  throw wrong(`${typed} pixels to the inch is not from ${LEAST_DPI} to ${MOST_DPI}`);
};

const wrong = (message: string, hint = 'write how many pixels the scanner makes of an inch, like 300'): Error =>
  usage(message, '--dpi', hint);
