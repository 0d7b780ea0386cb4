/** `1 panel`, `6 panels`. */
export const countOf = (number: number, thing: string): string => `${number} ${thing}${number === 1 ? '' : 's'}`;
