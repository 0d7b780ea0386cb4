/** A small seeded source of chance, the same on every machine. */
export interface Random {
  /** From 0 up to, not including, 1. */
  readonly next: () => number;
  readonly between: (low: number, high: number) => number;
  /** A whole number from 0 up to, not including, `count`. */
  readonly below: (count: number) => number;
  /** Of mean 0 and spread 1. */
  readonly normal: () => number;
}

/** Counter and scramble in 32 bits (mulberry32). */
export const randomFrom = (seed: number): Random => {
  let state = Math.imul(seed, 0x9e3779b1) >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
  return {
    next,
    between: (low, high) => low + (high - low) * next(),
    below: (count) => Math.floor(count * next()),
    normal: () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
  };
};
