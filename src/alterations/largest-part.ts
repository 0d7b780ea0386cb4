/** Steps of halving: a metre is narrowed down to a thousandth of a millimetre. */
const HALVINGS = 20;

/** How far `largestPart` may lie below the true limit. */
const LARGEST_PART_ERROR = 2 ** -HALVINGS;

/** Where a typed amount turns out not to work after all, ever smaller parts of it are tried. */
const SMALLER = [1, 0.97, 0.94, 0.9, 0.8, 0.5] as const;

/**
 * The largest part of an alteration that works, in [0, 1), by halving: `works(0)` is taken to hold, `works(1)` not to.
 * Where the parts that work are no single stretch, the end of one of them.
 */
export const largestPart = (works: (part: number) => boolean): number => {
  let [low, high] = [0, 1];
  for (let step = 0; step < HALVINGS; step += 1) {
    const middle = (low + high) / 2;
    if (works(middle)) low = middle;
    else high = middle;
  }
  return low;
};

/** Parts to try in turn once the largest is known: rounded to what can be typed, one may fail where the part itself did not. */
export const partsToTry = (largest: number): number[] => [
  largest + LARGEST_PART_ERROR,
  ...SMALLER.map((smaller) => largest * smaller),
];
