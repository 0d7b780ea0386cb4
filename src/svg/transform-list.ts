import { StaywrightError } from '../errors.ts';
import { compose, IDENTITY, rotation, scaling, translation, type Matrix } from '../geometry/matrix.ts';

const RADIANS = Math.PI / 180;
const NUMBER = /[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?/gi;
const FUNCTION = /^[\s,]*([a-zA-Z]+)\s*\(([^()]*)\)/;

/** The functions of SVG by name, each with how many numbers it may have. */
const FUNCTIONS: Readonly<
  Record<string, { readonly counts: readonly number[]; readonly make: (v: readonly number[]) => Matrix }>
> = {
  matrix: { counts: [6], make: ([a, b, c, d, e, f]) => ({ a: a!, b: b!, c: c!, d: d!, e: e!, f: f! }) },
  translate: { counts: [1, 2], make: ([x, y = 0]) => translation(x!, y) },
  scale: { counts: [1, 2], make: ([x, y = x]) => scaling(x!, y) },
  rotate: {
    counts: [1, 3],
    make: ([degrees, x = 0, y = 0]) =>
      compose(compose(translation(x, y), rotation(degrees! * RADIANS)), translation(-x, -y)),
  },
  skewX: { counts: [1], make: ([degrees]) => ({ ...IDENTITY, c: Math.tan(degrees! * RADIANS) }) },
  skewY: { counts: [1], make: ([degrees]) => ({ ...IDENTITY, b: Math.tan(degrees! * RADIANS) }) },
};

/** Lengths in px, angles in degrees: what drawing programs write where CSS syntax is used. */
const numbersOf = (text: string): number[] | undefined => {
  const plain = text.replace(/(\d|\.)(?:px|deg)(?=[\s,]|$)/g, '$1');
  if (plain.replace(NUMBER, '').trim().replace(/[\s,]/g, '') !== '') return undefined;
  const numbers = (plain.match(NUMBER) ?? []).map(Number);
  return numbers.every(Number.isFinite) ? numbers : undefined;
};

/**
 * The matrix of a `transform` attribute: a list of functions of which the last is applied first.
 * Empty or `none` is the identity. Throws an `input` error for an unknown function or a wrong count of numbers.
 */
export const transformList = (text: string, where: string): Matrix => {
  let rest = text.trim();
  let matrix = IDENTITY;
  if (rest === 'none') return matrix;
  const fail = (message: string): never => {
    throw new StaywrightError('input', message, { where });
  };
  while (rest !== '') {
    const [whole, name, body] = FUNCTION.exec(rest) ?? [];
    if (whole === undefined) return fail(`'${rest.slice(0, 40)}' is not a transform`);
    const known = Object.hasOwn(FUNCTIONS, name!) ? FUNCTIONS[name!] : undefined;
    if (!known) return fail(`unknown transform '${name!.slice(0, 20)}'`);
    const numbers = numbersOf(body!);
    if (!numbers || !known.counts.includes(numbers.length)) {
      return fail(`${name}(${body!.trim().slice(0, 40)}) must have ${known.counts.join(' or ')} numbers`);
    }
    matrix = compose(matrix, known.make(numbers));
    rest = rest.slice(whole.length).replace(/^[\s,]+/, '');
  }
  return matrix;
};
