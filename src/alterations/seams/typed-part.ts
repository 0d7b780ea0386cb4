import { StaywrightError } from '../../errors.ts';
import type { Units } from '../../pattern/pattern.ts';
import { typedAmount } from '../largest-amount.ts';
import type { MoveSeams } from '../move-seams-options.ts';

/** A smaller alteration of the same kind, in lengths that can be typed, and those lengths in words. */
export interface TypedPart {
  readonly what: MoveSeams;
  readonly hint: string;
}

/** The given part of an alteration, rounded down to what a maker can type; undefined where nothing is left. */
export const typedPart = (what: MoveSeams, part: number, units: Units): TypedPart | undefined => {
  const { by } = what;
  if (by.kind === 'amount') {
    const { mm, text } = typedAmount(by.amount * part, units);
    return mm === 0
      ? undefined
      : { what: { ...what, by: { ...by, amount: mm } }, hint: `the largest amount that works is ${text}` };
  }
  if (by.kind === 'girth') {
    const { mm, text } = typedAmount(by.girth * part, units);
    return mm === 0
      ? undefined
      : { what: { ...what, by: { ...by, girth: mm } }, hint: `the largest girth that works is ${text}` };
  }
  const at = by.at.map(({ level, amount }) => {
    const { mm, text } = typedAmount(amount * part, units);
    return { level, mm, text };
  });
  if (at.every(({ mm }) => mm === 0)) return undefined;
  return {
    what: { ...what, by: { kind: 'at', at: at.map(({ level, mm }) => ({ level, amount: mm })) } },
    hint: `the largest amounts like these that work are ${at.map(({ level, text }) => `${level.text}=${text}`).join(', ')}`,
  };
};

/** The refusal of an alteration that a panel does not allow. */
export const refusal = (panel: string, reason: string, largest: TypedPart | undefined): StaywrightError =>
  new StaywrightError('impossible', reason, {
    where: `panel ${panel}`,
    hint: largest?.hint ?? 'no amount works there; choose another seam or another part of it',
  });
