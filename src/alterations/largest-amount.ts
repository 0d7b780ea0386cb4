import { StaywrightError } from '../errors.ts';
import type { Units } from '../pattern/pattern.ts';
import { typedLength } from '../pattern/typed-length.ts';
import type { Trouble } from './alter-panels.ts';
import { largestPart, partsToTry } from './largest-part.ts';

/** A length with its sign, rounded towards nothing to what a maker can type. */
export const typedAmount = (mm: number, units: Units): { readonly mm: number; readonly text: string } => {
  const size = typedLength(Math.abs(mm), units);
  return mm < 0 ? { mm: -size.mm, text: `-${size.text}` } : size;
};

/** The largest amount between nothing and one that fails, of the same sign, that `works` and can be typed; undefined where none does. */
export const largestAmount = (
  amount: number,
  units: Units,
  works: (amount: number) => boolean,
): { readonly mm: number; readonly text: string } | undefined => {
  const part = largestPart((tried) => works(amount * tried));
  for (const tried of partsToTry(part)) {
    const typed = typedAmount(amount * tried, units);
    if (typed.mm !== 0 && works(typed.mm)) return typed;
  }
  return undefined;
};

/** The refusal of an alteration by one amount, with the largest that works. */
export const refuseAmount = (
  { panel, reason }: Trouble,
  amount: number,
  units: Units,
  works: (amount: number) => boolean,
): StaywrightError => {
  const largest = largestAmount(amount, units, works);
  return new StaywrightError('impossible', reason, {
    where: `panel ${panel}`,
    hint: largest ? `the largest amount that works is ${largest.text}` : 'no amount works there',
  });
};
