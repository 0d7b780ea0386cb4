import { StaywrightError } from '../errors.ts';
import { MOST_PATH_COMMANDS } from './limits.ts';

/** One command of path data with its numbers; repeated numbers are commands of their own. */
export interface PathCommand {
  readonly letter: string;
  readonly values: readonly number[];
  /** Where it stands in the data. */
  readonly index: number;
}

const COUNTS: Readonly<Record<string, number>> = { M: 2, L: 2, H: 1, V: 1, C: 6, S: 4, Q: 4, T: 2, A: 7, Z: 0 };
const NUMBER = /[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?/y;
const FLAG = /[01]/y;
const GAP = /[\t\n\f\r ]*/y;
const COMMA_GAP = /[\t\n\f\r ]*,?[\t\n\f\r ]*/y;

/**
 * Reads path data by the grammar of SVG 2. A drawing program would draw the part before a mistake; here it is refused, since
 * half an outline is no outline. `placeAt` turns an index into `file:line:column` for the error.
 */
export const pathCommands = (data: string, placeAt: (index: number) => string): PathCommand[] => {
  const commands: PathCommand[] = [];
  let at = 0;
  const fail = (message: string): never => {
    throw new StaywrightError('input', `path data ${message}`, { where: placeAt(Math.min(at, data.length)) });
  };
  const take = (pattern: RegExp): string | undefined => {
    pattern.lastIndex = at;
    const found = pattern.exec(data)?.[0];
    at += found?.length ?? 0;
    return found;
  };
  const found = (): string => (at >= data.length ? 'ends' : `has '${data.slice(at, at + 12)}'`);

  /** The numbers of one command, or undefined where another turn of the same letter does not begin. */
  const takeValues = (letter: string, again: boolean): number[] | undefined => {
    const isArc = letter.toUpperCase() === 'A';
    const values: number[] = [];
    for (let i = 0; i < COUNTS[letter.toUpperCase()]!; i += 1) {
      const before = at;
      const gap = again || i > 0 ? take(COMMA_GAP) : take(GAP);
      const text = take(isArc && (i === 3 || i === 4) ? FLAG : NUMBER);
      if (text === undefined && again && i === 0 && !gap!.includes(',')) {
        at = before;
        return undefined;
      }
      if (text === undefined)
        fail(`${found()} where ${letter} needs a ${isArc && (i === 3 || i === 4) ? 'flag' : 'number'}`);
      const value = Number(text);
      if (!Number.isFinite(value)) fail(`has a number that is not finite: ${text!.slice(0, 20)}`);
      values.push(value);
    }
    return values;
  };

  take(GAP);
  if (data.slice(at).trim() === 'none') return [];
  while (at < data.length) {
    const index = at;
    let letter = data[at]!;
    if (!Object.hasOwn(COUNTS, letter.toUpperCase())) fail(`${found()} where a command must stand`);
    if (commands.length === 0 && letter.toUpperCase() !== 'M') fail('must start with M');
    at += 1;
    let values = takeValues(letter, false);
    while (values) {
      commands.push({ letter, values, index });
      if (commands.length > MOST_PATH_COMMANDS) fail(`has over ${MOST_PATH_COMMANDS} commands`);
      if (values.length === 0) break;
      if (letter === 'M') letter = 'L';
      if (letter === 'm') letter = 'l';
      values = takeValues(letter, true);
    }
    take(GAP);
  }
  return commands;
};
