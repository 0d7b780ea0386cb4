/**
 * Path data read by svg-path-parser, with what that library leaves open: numbers that are not finite, the sign of arcs' radii
 * (SVG ignores it, the library refuses it), paths so long that its stack runs out, and a word on what is wrong.
 */
import parser, { type Command } from 'svg-path-parser';
import { StaywrightError } from '../errors.ts';
import { MOST_PATH_COMMANDS } from './limits.ts';

const NUMBER = String.raw`[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?`;
const GAP = String.raw`\s*,?\s*`;
const REST_OF_ARC = [NUMBER, '[01]', '[01]', NUMBER, NUMBER].map((part) => GAP + part).join('');
const ARC = new RegExp(`(${GAP})(${NUMBER})(${GAP})(${NUMBER})(${REST_OF_ARC})`, 'gy');
const ARC_COMMAND = /[Aa][^A-DF-Za-df-z]*/g;

const unsigned = (number: string): string => number.replace(/^[+-]/, ' ');

/** The same data, character for character as long, with blanks for the signs of arcs' radii. */
const withoutSignsOfRadii = (data: string): string =>
  data.replaceAll(
    ARC_COMMAND,
    (arcs) =>
      arcs[0]! +
      arcs
        .slice(1)
        .replaceAll(
          ARC,
          (_, before: string, rx: string, between: string, ry: string, rest: string) =>
            before + unsigned(rx) + between + unsigned(ry) + rest,
        ),
  );

const parse = (data: string): Command[] => {
  try {
    return parser.parseSVG(data);
  } catch (error) {
    if (error instanceof RangeError) return Array.from({ length: MOST_PATH_COMMANDS + 1 });
    throw error;
  }
};

/** The first number too large to be one. */
const firstInfinite = (data: string): RegExpExecArray | undefined =>
  [...data.matchAll(new RegExp(NUMBER, 'g'))].find(([text]) => !Number.isFinite(Number(text)));

/**
 * The commands of path data by the grammar of SVG; `none` and blanks are none. A drawing program would draw the part before a
 * mistake; here it is refused, since half an outline is no outline. `placeAt` turns an index into `file:line:column` for the error.
 */
export const parsePathData = (data: string, placeAt: (index: number) => string): Command[] => {
  if (data.trim() === 'none') return [];
  const fail = (message: string, index: number): never => {
    throw new StaywrightError('input', `path data ${message}`, { where: placeAt(index) });
  };
  let commands: Command[];
  try {
    commands = parse(withoutSignsOfRadii(data.replaceAll('\f', ' ')));
  } catch (error) {
    const index = (error as { location?: { start: { offset: number } } }).location?.start.offset;
    if (index === undefined) throw error;
    const letter = data
      .slice(0, index)
      .match(/[A-DF-Za-df-z]/g)
      ?.at(-1);
    if (letter === undefined) return fail('must start with M', index);
    if (index >= data.length) return fail(`ends before ${letter} has all its numbers`, data.length);
    return fail(`has '${data.slice(index, index + 12)}' where it cannot stand, after ${letter}`, index);
  }
  if (commands.length > MOST_PATH_COMMANDS) fail(`has over ${MOST_PATH_COMMANDS} commands`, 0);
  const infinite = firstInfinite(data);
  if (infinite) fail(`has a number that is not finite: ${infinite[0].slice(0, 20)}`, infinite.index);
  return commands;
};
