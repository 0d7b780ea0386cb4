import { StaywrightError } from '../errors.ts';
import { SIDES, type Side } from '../pattern/panel.ts';
import type { Pattern } from '../pattern/pattern.ts';
import type { Sheet } from '../svg/sheet.ts';

/** The refusal of a side where there are none. */
export const notSplit = (name: string): StaywrightError =>
  new StaywrightError('usage', `the panels of ${name} are not split into left and right`, {
    where: '--side',
    hint: 'split them first: staywright split-sides',
  });

/** The sheet with the panels of one side only; those of the other are set aside in it, to come back when it is written. */
export const takeSide = (sheet: Sheet, side: Side): Sheet => {
  const { pattern } = sheet;
  if (pattern.panels.every((panel) => panel.side === undefined)) {
    throw notSplit(pattern.name);
  }
  const panels = pattern.panels.filter((panel) => panel.side === side);
  if (panels.length === 0) {
    throw new StaywrightError('usage', `${pattern.name} has no panels of the ${side} side`, {
      where: '--side',
      hint: 'work on the side that it holds, or on the whole sheet',
    });
  }
  return {
    ...sheet,
    pattern: { ...pattern, panels },
    aside: pattern.panels.filter((panel) => panel.side !== side),
  };
};

/** The pattern with the panels that were set aside back among its own: the left first, then the right. */
export const wholePattern = (pattern: Pattern, aside: Sheet['aside']): Pattern => {
  if (aside === undefined) return pattern;
  const all = [...pattern.panels, ...aside];
  const panels = [...SIDES, undefined].flatMap((side) => all.filter((panel) => panel.side === side));
  return { ...pattern, panels };
};

/** The sheet whole again. */
export const wholeSheet = ({ aside, ...sheet }: Sheet): Sheet => ({
  ...sheet,
  pattern: wholePattern(sheet.pattern, aside),
});
