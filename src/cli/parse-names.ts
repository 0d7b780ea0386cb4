import { StaywrightError } from '../errors.ts';

/** Names parted by commas, from one option or from several: `--seam A,B --seam C`. */
export const parseNames = (texts: readonly string[], where: string): string[] => {
  const names = texts.flatMap((text) => text.split(',')).map((name) => name.trim());
  if (names.includes('')) {
    throw new StaywrightError('usage', 'a name is missing', { where, hint: 'part names with one comma: cb,side' });
  }
  return names;
};
