import { StaywrightError } from '../errors.ts';

const MM_PER: Readonly<Record<string, number>> = { mm: 1, cm: 10, in: 25.4 };

/** Longer than this is a slip of the keyboard, not a garment. */
const LONGEST = 100_000;

const DECIMAL = /^(\d+(?:\.\d*)?|\.\d+)$/;
const FRACTION = /^(?:(\d+)(?:\s+|\s*-\s*))?(\d+)\s*\/\s*(\d+)$/;

/**
 * A length with its unit, in millimetres: `12mm`, `1.2cm`, `0.5in`, `5/8in`, `1 1/2in`, `1-1/2in`, any of them after a minus.
 * A bare number is refused, because it is the commonest slip; `where` names the option it came from.
 */
export const parseLength = (text: string, where: string): number => {
  const typed = text.trim();
  const fail = (message: string, hint = 'a length is like 12mm, 1.2cm, 0.5in or 5/8in'): never => {
    throw new StaywrightError('usage', message, { where, hint });
  };
  if (typed === '') return fail('a length is missing');
  const [, sign = '', digits = '', unit = ''] = /^([+-]?)\s*([\d.\s/-]*?)\s*([^\d.\s/-].*)?$/u.exec(typed) ?? [];
  const size = sizeOf(digits);
  if (unit.startsWith(','))
    return fail(`'${typed}' is not a length`, `write it with a point: ${typed.replace(',', '.')}`);
  if (size === undefined) return fail(`'${typed}' is not a length`);
  if (unit === '') return fail(`'${typed}' has no unit`, `say which unit: ${typed}cm, ${typed}in or ${typed}mm`);
  const scale = MM_PER[unit.toLowerCase()];
  if (scale === undefined) return fail(`'${unit}' is not a unit`, `write it in mm, cm or in: ${sign}${digits}in`);
  const length = (sign === '-' ? -size : size) * scale;
  if (Math.abs(length) > LONGEST) return fail(`'${typed}' is more than 100 m`);
  return length === 0 ? 0 : length;
};

const sizeOf = (digits: string): number | undefined => {
  if (DECIMAL.test(digits)) return Number(digits);
  const [, whole = '0', above, below] = FRACTION.exec(digits) ?? [];
  if (above === undefined || Number(below) === 0) return undefined;
  return Number(whole) + Number(above) / Number(below);
};
