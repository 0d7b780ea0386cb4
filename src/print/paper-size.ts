import paperSizes from '../../shared/paper-sizes.json' with { type: 'json' };
import { StaywrightError } from '../errors.ts';

/** A sheet of paper as it is loaded, upright, in millimetres. Of a roll, `height` is the longest page that can be printed. */
export interface Paper {
  readonly name: string;
  readonly width: number;
  readonly height: number;
  readonly roll: boolean;
}

/** A PDF page may be at most 14,400 units of 1/72 inch a side (ISO 32000-1, annex C). */
export const LONGEST_PAGE = (14_400 / 72) * 25.4;

const MM = { mm: 1, cm: 10, in: 25.4 } as const;
const NUMBER = String.raw`(\d+(?:\.\d+)?)`;
const UNIT = '(mm|cm|in)';
const ROLL = new RegExp(`^roll:${NUMBER}${UNIT}$`);
const CUSTOM = new RegExp(`^${NUMBER}${UNIT}?x${NUMBER}${UNIT}$`);

const known = paperSizes.sizes.map(({ name }) => name).join(', ');
const HINT = `known papers: ${known}; or roll:WIDTH (roll:914mm), or WIDTHxHEIGHT (300x500mm, 13x19in)`;

/**
 * The paper of that name: one of the known sizes, `roll:914mm`, or a size such as `300x500mm` or `13x19in`
 * (one unit at the end serves both sides).
 * Throws a usage error for any other text, and for sides under 60 mm or over the longest page of a PDF.
 */
export const paperNamed = (text: string): Paper => {
  const name = text.trim().toLowerCase().replaceAll(/\s+/g, '');
  const listed = paperSizes.sizes.find((size) => size.name === name);
  if (listed) return { name, width: listed.width, height: listed.height, roll: false };
  const roll = ROLL.exec(name);
  if (roll) return checked({ name, width: inMm(roll[1]!, roll[2]!), height: LONGEST_PAGE, roll: true });
  const custom = CUSTOM.exec(name);
  if (custom) {
    const width = inMm(custom[1]!, custom[2] ?? custom[4]!);
    return checked({ name, width, height: inMm(custom[3]!, custom[4]!), roll: false });
  }
  throw new StaywrightError('usage', `no such paper: ${text}`, { where: '--paper', hint: HINT });
};

const inMm = (number: string, unit: string): number => Number(number) * MM[unit as keyof typeof MM];

const checked = (paper: Paper): Paper => {
  const [short, long] = [Math.min(paper.width, paper.height), Math.max(paper.width, paper.height)];
  if (short < 60) {
    throw new StaywrightError('usage', `paper ${paper.name} is under 60 mm on a side`, {
      where: '--paper',
      hint: HINT,
    });
  }
  if (long > LONGEST_PAGE) {
    throw new StaywrightError('usage', `paper ${paper.name} is longer than a PDF page can be, ${LONGEST_PAGE} mm`, {
      where: '--paper',
      hint: 'use roll:WIDTH, which divides what is longer into several pages',
    });
  }
  return paper;
};
