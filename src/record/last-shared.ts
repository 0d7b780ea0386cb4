import type { Change } from './change.ts';

/**
 * Place of the last change that two records begin with alike, -1 where they only start from the same sheet; undefined where they have
 * nothing in common, or nothing but a plain drawing, of which nothing is known.
 */
export const lastShared = (record: readonly Change[], other: readonly Change[]): number | undefined => {
  const parted = record.findIndex((change, at) => !isSame(change, other[at]));
  const place = (parted < 0 ? record.length : parted) - 1;
  if (place >= 0) return place;
  const original = record[0]?.before;
  return typeof original === 'string' && other[0]?.before === original ? -1 : undefined;
};

const isSame = (one: Change, other: Change | undefined): boolean =>
  other !== undefined &&
  one.command === other.command &&
  one.before === other.before &&
  one.after === other.after &&
  one.other === other.other;
