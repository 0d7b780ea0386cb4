/** A number as PDF wants it: no exponent, at most 4 decimals (of a millimetre: far below what a printer places). A number that is not finite is a bug and throws. */
export const inNumber = (value: number): string => {
  if (!Number.isFinite(value)) throw new Error(`${value} cannot be drawn`);
  return String(Math.round(value * 10_000) / 10_000 + 0);
};

/** Operands and their operator: `0 0 m`. */
export const inNumbers = (values: readonly number[], operator: string): string =>
  `${values.map(inNumber).join(' ')} ${operator}`;
