/** Two notches farther apart along the seam than this were never meant to meet: an inch. */
const FARTHEST_PAIR = 25;

/** Indices into the two lists of places. */
export interface Pairing {
  readonly pairs: readonly (readonly [one: number, other: number])[];
  readonly singles: readonly [one: readonly number[], other: readonly number[]];
}

interface Part {
  readonly cost: number;
  readonly pairs: readonly (readonly [number, number])[];
}

const NOTHING: Part = { cost: 0, pairs: [] };

/** The indices of places, from the lowest up. */
const upwards = (places: readonly number[]): number[] => [...places.keys()].toSorted((a, b) => places[a]! - places[b]!);

const cheapest = (parts: readonly Part[]): Part => parts.reduce((best, part) => (part.cost < best.cost ? part : best));

/**
 * Which notch on one edge is sewn to which on the other, by their places along the seam in millimetres, in any order. Of all pairings
 * that cross nowhere, the one with the least distance in sum, where a notch left single counts as half of FARTHEST_PAIR: so none is
 * paired farther away than that, and pairs that were made to meet are found again. (The same table as for the differences of two texts.)
 */
export const pairNotches = (one: readonly number[], other: readonly number[]): Pairing => {
  const [a, b] = [upwards(one), upwards(other)];
  const single = (part: Part, count = 1): Part => ({ ...part, cost: part.cost + (count * FARTHEST_PAIR) / 2 });
  let row: Part[] = [NOTHING, ...b.map((_, j) => single(NOTHING, j + 1))];
  for (const i of a) {
    const next = [single(row[0]!)];
    for (const [at, j] of b.entries()) {
      const before = row[at]!;
      const met = { cost: before.cost + Math.abs(one[i]! - other[j]!), pairs: [...before.pairs, [i, j] as const] };
      next.push(cheapest([met, single(row[at + 1]!), single(next[at]!)]));
    }
    row = next;
  }
  const { pairs } = row.at(-1)!;
  const left = (indices: readonly number[], side: 0 | 1): number[] =>
    indices.filter((index) => pairs.every((pair) => pair[side] !== index));
  return { pairs, singles: [left(a, 0), left(b, 1)] };
};
